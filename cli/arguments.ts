import { type ParseArgsConfig, parseArgs } from "node:util";
import type { Command } from "./help.ts";
import { orNearest } from "./nearest.ts";
import { Refusal } from "./refusal.ts";

type Options = NonNullable<ParseArgsConfig["options"]>;

/** Reads a command's options; a wrong one is refused, with the nearest right one. */
export function readArguments<const O extends Options>(command: Command, args: readonly string[], options: O) {
  try {
    return parseArgs({ args: [...args], options, strict: true, allowPositionals: true });
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw new Refusal(`${reasonOf(error.message, Object.keys(options))} See borecast ${command} --help`);
  }
}

/** What Node says of the arguments, in our words and as a sentence. */
function reasonOf(message: string, names: readonly string[]): string {
  const unknown = /^Unknown option '-?-([^']*)'/.exec(message)?.[1];
  if (unknown !== undefined) {
    const dashes = unknown.length === 1 ? "-" : "--";
    return `There is no option ${dashes}${unknown}${orNearest(unknown, names).replace("mean ", "mean --")}`;
  }
  const named = /^Option '(?:-\w, )?(--[\w-]+)[^']*'/.exec(message)?.[1];
  if (named !== undefined && message.includes("is ambiguous")) {
    return `After ${named} comes what looks like another option; write a value that begins with a dash as ${named}=VALUE.`;
  }
  if (named !== undefined && message.includes("argument missing")) return `${named} needs a value.`;
  if (named !== undefined && message.includes("does not take an argument")) return `${named} takes no value.`;
  return `${(message.split("\n")[0] ?? "").replace(/\.$/, "")}.`;
}

export function refuseWords(command: Command, positionals: readonly string[]): void {
  if (positionals.length === 0) return;
  throw new Refusal(
    `borecast ${command} takes no files or words, but was given "${positionals[0]}". See borecast ${command} --help`,
  );
}
