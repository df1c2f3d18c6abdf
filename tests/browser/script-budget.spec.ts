import { expect } from "@playwright/test";
import { firstVisit } from "../bench/first-visit.ts";
import { ask } from "../bench/server.ts";
import { withDemoFleet } from "./demo-fleet.ts";
import { test } from "./page-checks.ts";

withDemoFleet();

test("a first visit to the Fleet fetches less than 300 kB of script, compressed", async ({ baseURL }) => {
  const { scriptBytes } = await firstVisit((address) => ask(`${baseURL}${address}`), "/");
  expect(scriptBytes).toBeLessThan(300_000);
});
