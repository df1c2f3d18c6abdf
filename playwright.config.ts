import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { defineConfig } from "@playwright/test";
import { findBrowser } from "./cli/setup/browser.mjs";

/** A port that is free now; the system picks it, so that a running app is no obstacle. */
const freePort = () =>
  new Promise<string>((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen({ host: "127.0.0.1", port: 0 }, () => {
      const address = probe.address();
      probe.close(() => resolve(String(typeof address === "object" ? address?.port : address)));
    });
  });

// Playwright reads this file again in each of its workers, which inherit the environment of the first reading.
if (!process.env["BORECAST_TEST_DATA"]) {
  const made = mkdtempSync(path.join(tmpdir(), "borecast-browser-"));
  process.env["BORECAST_TEST_DATA"] = made;
  process.env["BORECAST_TEST_PORT"] = await freePort();
  process.on("exit", () => rmSync(made, { recursive: true, force: true }));
}
const data = process.env["BORECAST_TEST_DATA"];
const port = process.env["BORECAST_TEST_PORT"] ?? "";
const baseURL = `http://127.0.0.1:${port}`;

const browserArguments = [
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
// Chromium's sandbox refuses to be started by root, as whom containers run.
if (process.getuid?.() === 0) browserArguments.unshift("--no-sandbox");
const executablePath = findBrowser();

export default defineConfig({
  testDir: "tests/browser",
  outputDir: "test-results",
  workers: 1,
  forbidOnly: true,
  timeout: 90_000,
  expect: { timeout: 15_000 },
  reporter: "list",
  use: {
    baseURL,
    locale: "en-GB",
    timezoneId: "UTC",
    // Colours are looked at as they stay, not on their way from one theme to the other.
    contextOptions: { reducedMotion: "reduce" },
    // A trace of every test would take a quarter of their time: `npx playwright test --trace on` gives one.
    screenshot: "only-on-failure",
    launchOptions: { args: browserArguments, ...(executablePath ? { executablePath } : {}) },
  },
  webServer: {
    command: `node cli/start.mjs --empty --port ${port}`,
    url: baseURL,
    env: { BORECAST_DATA: data },
    reuseExistingServer: false,
    timeout: 300_000,
    stdout: "ignore",
    gracefulShutdown: { signal: "SIGTERM", timeout: 10_000 },
  },
});
