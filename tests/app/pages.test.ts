import { readdirSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { pages } from "../pages.ts";

const app = path.resolve(import.meta.dirname, "../../app");

/** Folders in brackets of their own only sort files: they are no part of an address. */
const routeOf = (file: string) =>
  path
    .dirname(file)
    .split(path.sep)
    .filter((part) => part !== "." && !/^\(.*\)$/.test(part))
    .join("/");

test("every page of the app is in the list that the browser tests and the bench go by, and nothing else is", () => {
  const files = readdirSync(app, { recursive: true, encoding: "utf8" });
  const found = files.filter((file) => path.basename(file) === "page.tsx").map(routeOf);
  expect(pages.map(({ route }) => route).sort()).toEqual(found.sort());
});
