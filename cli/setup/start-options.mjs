import { parseArgs } from "node:util";
import { readPort } from "./address.mjs";
import { Refusal } from "./refusal.mjs";

export const help = `npm start [-- options]

Installs, builds and migrates what is not up to date, then serves Borecast on http://localhost:3000.

  --empty        a new database starts without the demo fleet
  --port NUMBER  serve on another port (or set PORT)
  --host NAME    0.0.0.0 lets other machines reach it (or set BORECAST_HOST); default 127.0.0.1
  --dev          serve the pages from their sources, for developers
  --build-only   build, and serve nothing
  --help         this text

Data lies in the folder named by BORECAST_DATA, default ./data.`;

/**
 * Reads the command line and the environment; a wrong option is refused.
 * @param {string[]} args @param {Record<string, string | undefined>} env
 */
export function readStartOptions(args, env) {
  const flag = /** @type {const} */ ({ type: "boolean", default: false });
  const text = /** @type {const} */ ({ type: "string" });
  let values;
  try {
    const options = { empty: flag, dev: flag, "build-only": flag, help: flag, port: text, host: text };
    values = parseArgs({ args, options, strict: true, allowPositionals: false }).values;
  } catch (error) {
    throw new Refusal(`${error.message.split("\n")[0].replace(/\.? To specify.*$/, "")}. See npm start -- --help`);
  }
  return {
    empty: values.empty,
    dev: values.dev,
    buildOnly: values["build-only"],
    help: values.help,
    port: readPort(values.port ?? (env.PORT || "3000")),
    host: values.host ?? (env.BORECAST_HOST || "127.0.0.1"),
  };
}
