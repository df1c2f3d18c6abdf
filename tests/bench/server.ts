import { spawn } from "node:child_process";
import { once } from "node:events";
import { Agent, get } from "node:http";
import { createServer } from "node:net";
import { fileURLToPath } from "node:url";

/** The app as `npm start` serves it, on this machine only, and what one answer of it took. */
export interface Server {
  readonly ask: (address: string) => Promise<Answer>;
  readonly stop: () => Promise<void>;
}

export interface Answer {
  readonly status: number;
  /** Until the first byte of the body came. */
  readonly firstSeconds: number;
  /** Until its last byte came. */
  readonly wholeSeconds: number;
  /** Of the body as it was sent: compressed, where the server compresses it. */
  readonly sentBytes: number;
  readonly encoding: string;
  readonly body: Buffer;
}

const startProgram = fileURLToPath(new URL("../../cli/start.mjs", import.meta.url));

async function freePort(): Promise<number> {
  const probe = createServer().listen({ host: "127.0.0.1", port: 0 });
  await once(probe, "listening");
  const address = probe.address();
  probe.close();
  await once(probe, "close");
  if (address === null || typeof address === "string") throw new Error("no port is free");
  return address.port;
}

/** Serves a store that stands in a folder. Throws where the server ends before it is ready. */
export async function startServer(data: string): Promise<Server> {
  const port = await freePort();
  const child = spawn(process.execPath, [startProgram, "--empty", "--port", String(port)], {
    env: { ...process.env, BORECAST_DATA: data, BORECAST_HOST: "127.0.0.1", NODE_ENV: "production" },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const end = () => child.kill("SIGTERM");
  process.once("exit", end);
  const ended = once(child, "exit");
  await new Promise<void>((resolve, reject) => {
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      if (text.includes("is ready at")) resolve();
    });
    ended.then(() => reject(new Error("the server ended before it was ready")), reject);
  });
  // One connection that is kept, as a browser keeps it.
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  return {
    ask: (address) => ask(`http://127.0.0.1:${port}${address}`, agent),
    stop: async () => {
      agent.destroy();
      process.off("exit", end);
      end();
      await ended;
    },
  };
}

/** Asks for an address as a browser of today does, over a connection that is kept where an agent keeps one. */
export function ask(url: string, agent?: Agent): Promise<Answer> {
  const start = performance.now();
  const seconds = () => (performance.now() - start) / 1000;
  return new Promise((resolve, reject) => {
    get(url, { ...(agent ? { agent } : {}), headers: { "accept-encoding": "gzip", accept: "text/html" } }, (reply) => {
      const chunks: Buffer[] = [];
      let firstSeconds = 0;
      reply.on("error", reject);
      reply.on("data", (chunk: Buffer) => {
        firstSeconds ||= seconds();
        chunks.push(chunk);
      });
      reply.on("end", () => {
        const body = Buffer.concat(chunks);
        resolve({
          status: reply.statusCode ?? 0,
          firstSeconds,
          wholeSeconds: seconds(),
          sentBytes: body.length,
          encoding: reply.headers["content-encoding"] ?? "identity",
          body,
        });
      });
    }).on("error", reject);
  });
}
