import { type ParseArgsConfig, parseArgs } from "node:util";
import type { Command } from "./help.ts";
import { nearest } from "./nearest.ts";
import { Refusal } from "./refusal.ts";

type Options = NonNullable<ParseArgsConfig["options"]>;

/** Reads a command's options; a wrong one is refused, with the nearest right one. */
export function readArguments<const O extends Options>(command: Command, args: readonly string[], options: O) {
  try {
    return parseArgs({ args: [...args], options, strict: true, allowPositionals: true });
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    const unknown = /^Unknown option '(-[^']*)'/.exec(error.message)?.[1];
    const names = Object.keys(options).map((name) => `--${name}`);
    const reason =
      unknown === undefined
        ? (error.message.split("\n")[0] ?? "").replace(/\.$/, "")
        : `There is no option ${unknown}; did you mean ${nearest(unknown, names)}?`;
    throw new Refusal(`${/[?]$/.test(reason) ? reason : `${reason}.`} See borecast ${command} --help`);
  }
}

export function refuseWords(command: Command, positionals: readonly string[]): void {
  if (positionals.length === 0) return;
  throw new Refusal(
    `borecast ${command} takes no files or words, but was given "${positionals[0]}". See borecast ${command} --help`,
  );
}
