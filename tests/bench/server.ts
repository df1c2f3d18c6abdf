import { Agent, get } from "node:http";
import { startServer } from "../server/start-server.ts";

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

/** Serves a store that stands in a folder. Throws where the server ends before it is ready. */
export async function servedStore(data: string): Promise<Server> {
  const { origin, stop } = await startServer(data);
  // One connection that is kept, as a browser keeps it.
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  return {
    ask: (address) => ask(`${origin}${address}`, agent),
    stop: async () => {
      agent.destroy();
      await stop();
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
