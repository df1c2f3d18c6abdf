import { expect, test } from "vitest";
import { chooseBrowser } from "../../../cli/setup/browser.mjs";

const own = "/own/chromium";
const searchPath = ["/usr/local/bin", "/usr/bin"].join(":");
const choose = (working: string[], given?: string) =>
  chooseBrowser({ given, playwrights: own, searchPath, works: (program: string) => working.includes(program) });

test("the browser that was named comes before all others", () => {
  expect(choose(["/named", own, "/usr/bin/chromium"], "/named")).toBe("/named");
});

test("a named browser that does not start is refused, not passed over", () => {
  expect(() => choose([own], "/named")).toThrow("CHROMIUM_PATH names /named, which is no browser that starts.");
});

test("Playwright's own comes before the system's", () => {
  expect(choose(["/usr/bin/chromium", own])).toBe(own);
});

test("the system's is found by any of its names, in any folder of the path", () => {
  expect(choose(["/usr/bin/google-chrome"])).toBe("/usr/bin/google-chrome");
  expect(choose(["/usr/bin/google-chrome", "/usr/local/bin/chromium-browser"])).toBe("/usr/local/bin/chromium-browser");
});

test("without any that starts there is none", () => {
  expect(choose([])).toBeUndefined();
});
