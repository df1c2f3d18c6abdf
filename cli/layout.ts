import { readFile } from "node:fs/promises";
import { keepLayout, layoutNamed, layoutsOfFile, suggestContext } from "../app/_jobs/kept-layouts.ts";
import { lookThrough } from "../app/_jobs/look-through.ts";
import { readableText } from "../app/_jobs/readable-text.ts";
import { keptLayouts, withdrawLayout } from "../db/layouts.ts";
import { sampleFile } from "../lib/intake/sample-file.ts";
import { layoutWords } from "../lib/intake/words.ts";
import { answered } from "../lib/layout/answer.ts";
import { columnWords } from "../lib/layout/column-words.ts";
import { cellWrittenOtherwise, contractSuggestion } from "../lib/layout/contract-columns.ts";
import { gapsOf } from "../lib/layout/layout.ts";
import { suggestLayout } from "../lib/layout/suggest.ts";
import type { Question, Sample, Suggestion } from "../lib/layout/suggestion.ts";
import { type HeadingsChoice, headingsChoiceSchema } from "../lib/schema/reading.ts";
import { dateWords, listWords } from "../lib/wording.ts";
import { readArguments } from "./arguments.ts";
import { bytesOf, readableSize } from "./files.ts";
import { orNearest } from "./nearest.ts";
import { personHere } from "./person.ts";
import { readingOptions, readReadingOptions } from "./reading-options.ts";
import { Refusal } from "./refusal.ts";
import { withStore } from "./store-command.ts";
import { table } from "./table.ts";
import { print, tell } from "./terminal.ts";

/** `borecast layout`: how the columns of foreign files are read. */

const options = {
  by: { type: "string" },
  json: { type: "boolean", default: false },
  "header-row": { type: "string" },
  answer: { type: "string", multiple: true },
  ...readingOptions,
} as const;
type Values = ReturnType<typeof readArguments<typeof options>>["values"];

interface Asked {
  readonly words: readonly string[];
  readonly values: Values;
  readonly now: Date;
}

const actions = { list, show, save, withdraw, suggest } as const;
type Action = keyof typeof actions;
const isAction = (word: string): word is Action => Object.hasOwn(actions, word);
const seeHelp = "See borecast layout --help";

export async function layouts(args: readonly string[], now: Date): Promise<number> {
  const { values, positionals } = readArguments("layout", args, options);
  const [action = "", ...words] = positionals;
  if (action === "") throw new Refusal(`Say what to do with layouts: ${listWords(Object.keys(actions))}. ${seeHelp}`);
  if (!isAction(action)) {
    throw new Refusal(`There is no "layout ${action}"${orNearest(action, Object.keys(actions))} ${seeHelp}`);
  }
  return actions[action]({ words, values, now });
}

/** Refuses too many words, or too few; `what` names them in order. */
function take(words: readonly string[], what: readonly string[]): readonly string[] {
  const [extra] = words.slice(what.length);
  if (extra !== undefined) throw new Refusal(`"${extra}" is one word too many. ${seeHelp}`);
  const missing = what[words.length];
  if (missing !== undefined) throw new Refusal(`${missing} is missing. ${seeHelp}`);
  return words;
}

async function list({ words }: Asked): Promise<number> {
  take(words, []);
  const rows = await withStore(keptLayouts);
  if (rows.length === 0) await print("No layouts are kept.\n");
  else {
    const lines = rows.map(({ name, by, at, header }) => [name, dateWords(at.slice(0, 10)), by, header]);
    await print(table(["name", "saved", "by", "recognised by"], lines));
  }
  return 0;
}

const noLayout = (name: string, names: readonly string[]): Refusal =>
  new Refusal(`There is no layout "${name}"${orNearest(name, names)} borecast layout list names them.`);

async function show({ words }: Asked): Promise<number> {
  const [name = ""] = take(words, ["The name of a layout"]);
  return withStore(async (store) => {
    const layout = await layoutNamed(store, name);
    if (layout === null)
      throw noLayout(
        name,
        (await keptLayouts(store)).map((row) => row.name),
      );
    await print(`${JSON.stringify(layout, null, 2)}\n`);
    return 0;
  });
}

async function withdraw({ words, values, now }: Asked): Promise<number> {
  const [name = ""] = take(words, ["The name of a layout"]);
  const at = now.toISOString();
  return withStore(async (store) => {
    const done = await withdrawLayout(store, name, { by: byOf(values), at });
    if (!done)
      throw noLayout(
        name,
        (await keptLayouts(store)).map((row) => row.name),
      );
    await print(`The layout "${name}" is not offered any more.\n`);
    return 0;
  });
}

function byOf({ by }: Values): string {
  const name = by?.trim() ?? personHere();
  if (name === "") throw new Refusal("--by is empty; give your name.");
  return name;
}

/** A layout's JSON, or what `suggest --json` printed. */
async function readLayoutFile(file: string): Promise<unknown> {
  await readableSize(file);
  try {
    const json: unknown = JSON.parse(await readFile(file, "utf8"));
    return typeof json === "object" && json !== null && "layout" in json ? json.layout : json;
  } catch (error) {
    if (error instanceof SyntaxError) throw new Refusal(`The file ${file} is not valid JSON. Nothing was kept.`);
    throw error;
  }
}

async function save({ words, values, now }: Asked): Promise<number> {
  const [name = "", file = ""] = take(words, ["The name of the layout", "The file with the layout"]);
  const by = byOf(values);
  const layout = await readLayoutFile(file);
  return withStore(async (store) => {
    const kept = await keepLayout(store, { name, layout }, { by, now });
    if (!kept.ok) throw new Refusal(`The layout in ${file} cannot be kept: ${kept.error.join("; ")}.`);
    await print(`The layout "${name.trim()}" is kept.\n`);
    const gaps = gapsOf(kept.value);
    if (gaps.length > 0) tell(`It does not tell ${layoutWords.gaps(gaps)}; rows without that are refused.`);
    return 0;
  });
}

async function suggest({ words, values, now }: Asked): Promise<number> {
  const [file = ""] = take(words, ["The file"]);
  const choice = readReadingOptions(values);
  const source = { name: file, bytes: await readableSize(file), open: () => bytesOf(file), choice };
  const sample = await sampleFile(await readableText(source, await lookThrough(source)));
  if (sample === null)
    throw new Refusal(`The file ${file} cannot be read as text. borecast import --dry-run tells why.`);
  return withStore(async (store) => {
    const context = await suggestContext(store, now);
    const found = suggestLayout(sample, context, headerRow(values["header-row"]));
    const other = found.isContract ? cellWrittenOtherwise(sample) : null;
    const asked = other === null ? found : contractSuggestion(sample, context);
    const suggestion = withAnswers(asked, values.answer ?? []);
    const known = (await layoutsOfFile(store, sample)).map(({ name }) => name);
    const text = () => `${beforehand(suggestion, { sample, other })}${suggestionText(suggestion, known)}`;
    await print(values.json ? `${JSON.stringify({ ...suggestion, known }, null, 2)}\n` : text());
    return suggestion.questions.some(({ needed }) => needed) ? 1 : 0;
  });
}

/** `3`, or `2-3` for headings of two rows. */
function headerRow(given: string | undefined): HeadingsChoice | undefined {
  if (given === undefined) return undefined;
  const [, first, last = first] = /^(\d{1,4})(?:-(\d{1,4}))?$/.exec(given.trim()) ?? [];
  const choice = headingsChoiceSchema.safeParse({ row: Number(last), rows: Number(last) - Number(first) + 1 });
  if (choice.success) return choice.data;
  throw new Refusal(`--header-row ${given} is no row: give its number, as 3, or two that follow each other, as 2-3.`);
}

/** The suggestion with what was answered, each as CODE=ANSWER; answered questions are open no more. */
function withAnswers(suggestion: Suggestion, answers: readonly string[]): Suggestion {
  let { layout, questions } = suggestion;
  for (const answer of answers) {
    const [code = "", value = ""] = answer.split(/=(.*)/s);
    const question = questions.find((open) => open.code === code);
    if (question === undefined || layout === null) {
      const codes = [...new Set(questions.map((open) => open.code))];
      const open =
        codes.length === 0 ? "none is open." : `open ${codes.length === 1 ? "is" : "are"} ${listWords(codes)}.`;
      throw new Refusal(`--answer ${answer}: there is no question "${code}"; ${open} ${seeHelp}`);
    }
    layout = answered(layout, question, value);
    if (layout === null) {
      const choices = question.choices.map((choice) => choice.value);
      const how = choices.length === 0 ? "say it in the layout itself (--json)." : `answer ${choices.join(" or ")}.`;
      throw new Refusal(`--answer ${answer}: this is no answer to "${code}"; ${how}`);
    }
    questions = questions.filter((open) => open !== question);
  }
  return { ...suggestion, layout, questions };
}

const rowsShown = 12;

/** What is to be known before the suggestion: the first rows where no headings were found, or why the file has one at all. */
function beforehand(
  { layout, isContract }: Suggestion,
  { sample, other }: { readonly sample: Sample; readonly other: ReturnType<typeof cellWrittenOtherwise> },
): string {
  if (isContract && other !== null) {
    return `The file has the columns of the contract, but not all cells as it has them, such as "${other.value}" (${other.column}). By this layout they are read.\n\n`;
  }
  if (layout !== null || isContract) return "";
  const rows = sample.records.slice(0, rowsShown).map((record, i) => [String(i + 1), record.slice(0, 8).join(" | ")]);
  return `${table(["row", "cells"], rows, [0])}\nGive the row of the headings with --header-row.\n`;
}

const questionLine = ({ code, words, choices, likely }: Question): string => {
  const offered = choices.map(({ value, words: said }) => (value === said ? value : `${value} (${said})`)).join(", ");
  const answer = offered === "" ? "" : ` Answers: ${offered}.${likely === null ? "" : ` Likely: ${likely}.`}`;
  return `- ${code}: ${words}${answer}\n`;
};

function suggestionText({ isContract, layout, columns, questions }: Suggestion, known: readonly string[]): string {
  if (isContract && layout === null) return "The file has the columns of the contract and needs no layout.\n";
  const recognised =
    known.length === 0
      ? ""
      : `Its header is that of the kept ${known.length === 1 ? "layout" : "layouts"} ${listWords(known.map((name) => `"${name}"`))}.\n\n`;
  const rows = columns.map(({ header, is, sureness, why }) => [header, columnWords(is), sureness, why]);
  const whole = Object.entries(layout?.constants ?? {}).map(([field, text]) => `${field} = ${text}`);
  const title = (layout?.title ?? []).map(({ label, field }) => `${field} from "${label}"`);
  const forAll = [...whole, ...title];
  return [
    recognised,
    rows.length === 0 ? "" : table(["heading", "what it is", "how sure", "why"], rows),
    forAll.length === 0 ? "" : `\nFor the whole file: ${forAll.join("; ")}.\n`,
    layout?.dateOrder == null ? "" : `Dates are ${layout.dateOrder}.\n`,
    layout?.decimalSign == null ? "" : `The decimal sign is ${layout.decimalSign}\n`,
    questions.length === 0 ? "" : `\nOpen questions\n${questions.map(questionLine).join("")}`,
  ].join("");
}
