import { spawn } from "node:child_process";
import { Stopped } from "./refusal.mjs";

/**
 * Runs another program to its end, as a direct child, so that a signal to us reaches it and nothing is left behind.
 *
 * @param {string} command
 * @param {string[]} args
 * @param {{ cwd: string, env?: NodeJS.ProcessEnv, quiet?: boolean }} options `quiet` keeps what it prints instead of
 *   showing it
 * @returns {Promise<{ status: number, output: string }>} its exit status, and what it printed where it was quiet
 */
export function run(command, args, { cwd, env = process.env, quiet = false }) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { cwd, env, stdio: quiet ? ["ignore", "pipe", "pipe"] : "inherit" });
    const output = [];
    child.stdout?.on("data", (chunk) => output.push(chunk));
    child.stderr?.on("data", (chunk) => output.push(chunk));
    let stoppedBy;
    const pass = (signal) => {
      stoppedBy = signal;
      child.kill(signal);
    };
    process.on("SIGINT", pass).on("SIGTERM", pass);
    const settle = (finish) => {
      process.off("SIGINT", pass).off("SIGTERM", pass);
      finish();
    };
    child.on("error", (error) => settle(() => reject(error)));
    child.on("close", (code) =>
      settle(() => {
        if (stoppedBy) reject(new Stopped(stoppedBy));
        else resolve({ status: code ?? 1, output: Buffer.concat(output).toString("utf8") });
      }),
    );
  });
}
