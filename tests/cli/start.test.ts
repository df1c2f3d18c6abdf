import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer, type Server } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";

const script = path.resolve(import.meta.dirname, "../../cli/start.mjs");
let place: string;
let server: Server | undefined;

beforeEach(() => {
  place = mkdtempSync(path.join(tmpdir(), "borecast-start-"));
});

afterEach(() => {
  server?.close();
  server = undefined;
  rmSync(place, { recursive: true, force: true });
});

/** Listens at a port of the system's choice. */
function occupyPort(): Promise<number> {
  return new Promise((resolve) => {
    const made = createServer();
    server = made;
    made.listen({ host: "127.0.0.1", port: 0 }, () => {
      const address = made.address();
      if (typeof address === "object" && address) resolve(address.port);
    });
  });
}

/** Every start here is refused before it installs, builds or serves anything. */
function start(args: string[], env: Record<string, string> = {}) {
  const { PORT: _port, BORECAST_HOST: _host, ...rest } = process.env;
  return new Promise<{ status: number | null; errors: string; output: string }>((resolve) => {
    const child = spawn(process.execPath, [script, ...args], {
      env: { ...rest, BORECAST_DATA: path.join(place, "data"), ...env },
    });
    let errors = "";
    let output = "";
    child.stderr.on("data", (chunk: Buffer) => {
      errors += chunk.toString();
    });
    child.stdout.on("data", (chunk: Buffer) => {
      output += chunk.toString();
    });
    child.on("close", (status) => resolve({ status, errors, output }));
  });
}

test("a busy port is refused in one sentence that names it", async () => {
  const port = await occupyPort();
  const { status, errors, output } = await start(["--port", String(port)]);
  expect(errors).toBe(
    `Port ${port} is in use by another program; stop it, or choose another port: npm start -- --port ${port + 1}\n`,
  );
  expect({ status, output }).toEqual({ status: 1, output: "" });
});

test("the port may come from the environment", async () => {
  const port = await occupyPort();
  expect((await start([], { PORT: String(port) })).errors).toContain(`Port ${port} is in use`);
});

test("a data folder below a file is refused in one sentence that names it", async () => {
  writeFileSync(path.join(place, "file"), "");
  const folder = path.join(place, "file", "data");
  const { status, errors, output } = await start([], { BORECAST_DATA: folder });
  expect(errors).toBe(
    `The data folder ${folder} cannot be written to: a part of that path is a file. Set BORECAST_DATA to another folder.\n`,
  );
  expect({ status, output }).toEqual({ status: 1, output: "" });
});

test("a folder in the database's place is refused", async () => {
  const database = path.join(place, "data", "borecast.db");
  mkdirSync(database, { recursive: true });
  const { status, errors } = await start([]);
  expect(errors).toBe(`${database} should be the database and is not a file. Set BORECAST_DATA to another folder.\n`);
  expect(status).toBe(1);
});

test("a wrong option is refused, not ignored", async () => {
  const { status, errors } = await start(["--prot", "3000"]);
  expect(errors).toBe("Unknown option '--prot'. See npm start -- --help\n");
  expect(status).toBe(1);
});

test("a port that is no port is refused", async () => {
  const { status, errors } = await start(["--port", "70000"]);
  expect(errors).toBe('"70000" is not a port; a port is a number from 1 to 65535.\n');
  expect(status).toBe(1);
});

test("help tells every option and starts nothing", async () => {
  const { status, output } = await start(["--help"]);
  for (const option of ["--empty", "--port", "--host", "BORECAST_DATA"]) expect(output).toContain(option);
  expect(status).toBe(0);
});

test.skipIf(process.platform !== "linux")("a data folder where nothing can be made is refused at once", async () => {
  const { status, errors } = await start([], { BORECAST_DATA: "/proc/borecast/data" });
  expect(errors).toMatch(
    /^The data folder \/proc\/borecast\/data cannot be written to: [^\n]*\. Set BORECAST_DATA to another folder\.\n$/,
  );
  expect(status).toBe(1);
});
