import { spawn } from "node:child_process";
import { request } from "node:http";
import { setTimeout as wait } from "node:timers/promises";
import { addressToOpen, isPrivate } from "./address.mjs";
import { environment, nextProgram, root } from "./place.mjs";
import { stopper } from "./stop.mjs";

/** The status with which the server answers, or nothing while it does not. */
function answer({ host, port }) {
  const reachable = { "0.0.0.0": "127.0.0.1", "::": "::1" }[host] ?? host;
  return new Promise((resolve) => {
    const ask = request({ host: reachable, port, path: "/icon.svg", method: "HEAD", timeout: 5_000 }, (reply) => {
      reply.resume();
      resolve(reply.statusCode);
    });
    ask.on("timeout", () => ask.destroy());
    ask.on("error", () => resolve(undefined));
    ask.end();
  });
}

/** Keeps what the server prints until told to let it through: its banner would hide our one line. */
function holdOutput(stream) {
  let held = [];
  stream.on("data", (chunk) => (held ? held.push(chunk) : process.stdout.write(chunk)));
  return {
    discard: () => {
      held = undefined;
    },
    show: () => {
      for (const chunk of held ?? []) process.stdout.write(chunk);
      held = undefined;
    },
  };
}

/** A SIGTERM to npm ends npm and its shell and never reaches us: then our parent is another one than before. */
function stopWhenOrphaned(stop) {
  const parent = process.ppid;
  if (!process.env.npm_lifecycle_event) return undefined;
  return setInterval(() => {
    if (process.ppid !== parent) stop();
  }, 500);
}

/**
 * Every page leaves many short-lived objects behind. With the small room that node gives them by default they are
 * cleared away several times a page; with this one a page takes two thirds of the time, for some 100 MB of memory.
 */
const roomForPages = "--max-semi-space-size=64";

/**
 * Serves the pages until a signal comes, as a direct child: a server behind npx or a shell would live on when its
 * parent is stopped, and would keep the port.
 * @param {{ host: string, port: number, folder: string, mode: "start" | "dev", say: (line: string) => void }} options
 * @returns {Promise<number>} exit status: 0 after a stop that was asked for
 */
export async function serve({ host, port, folder, mode, say }) {
  const child = spawn(process.execPath, [roomForPages, nextProgram, mode, "-H", host, "-p", String(port)], {
    cwd: root,
    env: environment({
      BORECAST_DATA: folder,
      BORECAST_REACH: isPrivate(host) ? "this-machine" : "network",
      NODE_ENV: mode === "start" ? "production" : "development",
    }),
    stdio: ["ignore", "pipe", "inherit"],
  });
  const output = holdOutput(child.stdout);
  let stopping = false;
  let ended;
  const end = new Promise((resolve) => {
    child.once("error", (error) => resolve({ code: 1, error }));
    child.once("close", (code) => resolve({ code: code ?? 1 }));
  }).then((result) => {
    ended = result;
    return result;
  });
  const stopChild = stopper(child);
  const stop = () => {
    stopping = true;
    stopChild();
  };
  process.on("SIGINT", stop).on("SIGTERM", stop);
  const orphanWatch = stopWhenOrphaned(stop);

  let status;
  while (!ended && !stopping && status === undefined) {
    status = await answer({ host, port });
    if (status === undefined) await wait(100);
  }
  // A server that could not be prepared, by its store for one, answers all the same: with an error to everything.
  const broken = status >= 500;
  if (broken && !stopping) stopChild();
  else if (!ended && !stopping) {
    output.discard();
    const reach = isPrivate(host) ? "" : " (reachable from other machines)";
    say(`Borecast is ready at ${addressToOpen({ host, port })}${reach}; data in ${folder}; Ctrl-C stops it.`);
  } else if (!stopping) output.show();

  const { code, error } = await end;
  process.off("SIGINT", stop).off("SIGTERM", stop);
  clearInterval(orphanWatch);
  if (stopping) return 0;
  if (broken) console.error("The server came up and cannot answer; its error stands above.");
  else console.error(`The server stopped by itself${error ? `: ${error.message}` : ` with exit status ${code}`}.`);
  return 1;
}
