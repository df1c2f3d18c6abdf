import { type ChildProcess, spawn } from "node:child_process";
import { EventEmitter, once } from "node:events";
import { expect, test } from "vitest";
import { stopper } from "../../../cli/setup/stop.mjs";

const never = 2 ** 31 - 1;

/** A program that says when it is ready, and lives until it is ended; `deaf`: whatever it is asked. */
async function started({ deaf }: { readonly deaf: boolean }): Promise<ChildProcess> {
  const ignore = deaf ? "process.on('SIGTERM', () => console.log('asked'));" : "";
  const child = spawn(process.execPath, ["-e", `${ignore} setInterval(() => {}, 1e6); console.log('ready')`]);
  await once(child.stdout, "data");
  return child;
}

const endOf = async (child: ChildProcess) => (await once(child, "close"))[1];

test("a program that ends when it is asked to is only asked", async () => {
  const child = await started({ deaf: false });
  const end = endOf(child);
  stopper(child, { patience: never })();
  expect(await end).toBe("SIGTERM");
});

test("one that stays is ended when the time is over", async () => {
  const child = await started({ deaf: true });
  const end = endOf(child);
  stopper(child, { patience: 1 })();
  expect(await end).toBe("SIGKILL");
});

test("one that stays is ended at the second asking; the same Ctrl-C may come twice", () => {
  const signals: unknown[] = [];
  const child = Object.assign(new EventEmitter(), { kill: (signal: unknown) => signals.push(signal) > 0 });
  let now = 0;
  const stop = stopper(child, { clock: () => now, patience: never });
  stop();
  now = 20;
  stop();
  expect(signals).toEqual(["SIGTERM"]);
  now = 900;
  stop();
  expect(signals).toEqual(["SIGTERM", "SIGKILL"]);
  child.emit("close");
});
