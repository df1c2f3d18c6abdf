import { assess } from "./assess.ts";
import { backtest } from "./backtest.ts";
import { budget } from "./budget.ts";
import { exportStore } from "./export.ts";
import { type Command, commands, generalHelp, helpOf } from "./help.ts";
import { importFiles } from "./import.ts";
import { layouts } from "./layout.ts";
import { orNearest } from "./nearest.ts";
import { plan } from "./plan.ts";
import { version } from "./project.ts";
import { Refusal } from "./refusal.ts";
import { Interrupted } from "./store-command.ts";
import { demo, migrateStore, rebuildStore } from "./store-commands.ts";
import { print, tell } from "./terminal.ts";

/** The command line. It alone reads the clock and the arguments; each command gives its exit status. */

const run: Record<Command, (args: readonly string[], now: Date) => Promise<number>> = {
  assess,
  backtest,
  plan,
  budget,
  import: importFiles,
  export: exportStore,
  layout: layouts,
  rebuild: rebuildStore,
  demo,
  migrate: migrateStore,
};

const isCommand = (word: string): word is Command => (commands as readonly string[]).includes(word);
const asksHelp = (word: string) => word === "--help" || word === "-h";

async function main([first = "", ...rest]: readonly string[]): Promise<number> {
  if (asksHelp(first) || first === "help") {
    const about = rest[0] ?? "";
    await print(isCommand(about) ? helpOf[about] : generalHelp);
    return 0;
  }
  if (first === "--version") {
    await print(`${version()}\n`);
    return 0;
  }
  if (first === "") throw new Refusal("No command was given. See borecast --help");
  if (!isCommand(first)) {
    throw new Refusal(`There is no command "${first}"${orNearest(first, commands)} See borecast --help`);
  }
  const options = rest.includes("--") ? rest.slice(0, rest.indexOf("--")) : rest;
  if (options.some(asksHelp)) {
    await print(helpOf[first]);
    return 0;
  }
  return run[first](rest, new Date());
}

process.stdout.on("error", ({ code, message }: NodeJS.ErrnoException) => {
  // A reader that has seen enough (`| head`) closes the pipe: that is no failure.
  if (code === "EPIPE") process.exit(0);
  const reason = code === "ENOSPC" ? "the disk is full" : message;
  tell(`The output could not be written: ${reason}.`);
  process.exit(2);
});

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof Refusal || error instanceof Interrupted)) throw error;
  tell(error.message);
  process.exitCode = error.status;
}
