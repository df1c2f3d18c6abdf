import { createServer } from "node:net";
import { Refusal } from "./refusal.mjs";

/** Reads a port. @param {string} text @returns {number} */
export function readPort(text) {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port < 1 || port > 65_535) throw new Refusal(`"${text}" is not a port; a port is a number from 1 to 65535.`);
  return port;
}

/** The address to tell people. @param {{ host: string, port: number }} address */
export function addressToOpen({ host, port }) {
  const name = ["127.0.0.1", "::1", "0.0.0.0", "::"].includes(host) ? "localhost" : host;
  return `http://${name.includes(":") ? `[${name}]` : name}:${port}`;
}

/** Whether only this machine can reach the address. @param {string} host */
export const isPrivate = (host) => host === "localhost" || host === "::1" || /^127\./.test(host);

/** Refuses when nothing can listen at the address. @param {{ host: string, port: number }} address */
export function requireFree({ host, port }) {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", (error) => {
      const sentences = {
        EADDRINUSE: `Port ${port} is in use by another program; stop it, or choose another port: npm start -- --port ${port + 1}`,
        EACCES: `Port ${port} may only be used by an administrator; choose one above 1023: npm start -- --port 3000`,
      };
      reject(new Refusal(sentences[error.code] ?? `Nothing can listen at ${host}: ${error.message}.`));
    });
    probe.listen({ host, port }, () => probe.close(resolve));
  });
}
