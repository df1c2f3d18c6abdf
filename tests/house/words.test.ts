import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";

/** What the app never says: it records and plans, and releases nothing to service. */
const unsaid: readonly RegExp[] = [
  /\b(?:un)?safe(?:ly|ty)?\b/i,
  /\b(?:un)?airworth(?:y|iness)\b/i,
  /\b(?:un)?health(?:y|ier)\b/i,
  /\bAI\b/,
  // An exclamation mark at the end of a sentence; the language's own stand before or behind names and brackets.
  /[a-z]!(?=["'`<\s]*(?:["'`]|<\/))/,
];

const repository = path.resolve(import.meta.dirname, "../..");

/** Source without its comments, line by line as it was. */
const withoutComments = (source: string): string =>
  source.replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm, (comment) => comment.replace(/[^\n]/g, ""));

const filesOf = (folder: string, ending: RegExp): string[] =>
  readdirSync(path.join(repository, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => ending.test(name))
    .map((name) => path.join(folder, name));

const files = [
  ...["app", "lib", "db", "cli"].flatMap((folder) => filesOf(folder, /\.(?:tsx?|mjs)$/)),
  ...["public/samples", "demo-data"].flatMap((folder) => filesOf(folder, /\.(?:csv|json)$/)),
];

function saidIn(text: string): string[] {
  return text.split("\n").flatMap((line, i) => (unsaid.some((word) => word.test(line)) ? [`${i + 1}: ${line}`] : []));
}

test("the words are found where they stand, and comments and the language's own signs are let through", () => {
  const source = ["// safe", 'say("It is safe.");', "safeParse(a!.b); /* healthy */", "<p>Done!</p>", 'say("AI");'];
  expect(saidIn(withoutComments(source.join("\n"))).map((line) => line.slice(0, 1))).toEqual(["2", "4", "5"]);
});

test("no text of the app, its samples or the demo says safe, airworthy, healthy, AI or shouts", () => {
  expect(files.length).toBeGreaterThan(300);
  const said = files.flatMap((file) => {
    const text = readFileSync(path.join(repository, file), "utf8");
    return saidIn(/\.(?:csv|json)$/.test(file) ? text : withoutComments(text)).map((line) => `${file}:${line}`);
  });
  expect(said).toEqual([]);
});
