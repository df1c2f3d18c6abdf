import { spawn } from "node:child_process";
import { once } from "node:events";
import { createServer } from "node:net";
import { fileURLToPath } from "node:url";

/** The app as `npm start` serves it once everything is built, in processes of its own, for this machine only. */
export interface RunningServer {
  /** As "http://127.0.0.1:1234". */
  readonly origin: string;
  /** Asks it to end, as Ctrl-C does, and waits until it has. */
  readonly stop: () => Promise<void>;
  /** Ends it and every process that it started at once, as when the power goes, and waits until they have. */
  readonly kill: () => Promise<void>;
}

const serveProgram = fileURLToPath(new URL("./serve.mjs", import.meta.url));

async function freePort(): Promise<number> {
  const probe = createServer().listen({ host: "127.0.0.1", port: 0 });
  await once(probe, "listening");
  const address = probe.address();
  probe.close();
  await once(probe, "close");
  if (address === null || typeof address === "string") throw new Error("no port is free");
  return address.port;
}

/** Serves the store of a data folder by the pages as they were built. Throws where the server ends before it is ready. */
export async function startServer(data: string): Promise<RunningServer> {
  const port = await freePort();
  const child = spawn(process.execPath, [serveProgram, data, String(port)], {
    stdio: ["ignore", "pipe", "inherit"],
    // A process group of its own: the pages are served by a child, which a signal to its parent alone spares.
    detached: true,
  });
  const ended = once(child, "close");
  const signal = (name: NodeJS.Signals) => {
    if (child.pid !== undefined && child.exitCode === null && child.signalCode === null) process.kill(-child.pid, name);
  };
  const endAtExit = () => signal("SIGKILL");
  process.once("exit", endAtExit);
  const end = async (name: NodeJS.Signals) => {
    process.off("exit", endAtExit);
    signal(name);
    await ended;
  };
  await new Promise<void>((resolve, reject) => {
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      if (text.includes("is ready at")) resolve();
    });
    ended.then(() => reject(new Error("the server ended before it was ready")), reject);
  });
  return { origin: `http://127.0.0.1:${port}`, stop: () => end("SIGTERM"), kill: () => end("SIGKILL") };
}
