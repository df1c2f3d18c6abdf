import { lookThrough } from "../app/_jobs/look-through.ts";
import { FileChanged, readableText } from "../app/_jobs/readable-text.ts";
import { addDays } from "../lib/calendar.ts";
import { type FactAssembler, factAssembler } from "../lib/intake/assemble.ts";
import { readFleetFile } from "../lib/intake/read-file.ts";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { FleetFacts, IsoDate } from "../lib/schema/facts.ts";
import type { KnownFleet, RowIssue } from "../lib/schema/intake.ts";
import type { ReadingChoice } from "../lib/schema/reading.ts";
import type { FileKind } from "../lib/schema/words.ts";
import { numberWords } from "../lib/wording.ts";
import type { AssessOptions } from "./assess-options.ts";
import { bytesOf, fileToRead, readableSize } from "./files.ts";
import type { Command } from "./help.ts";
import { issueLine } from "./issue-lines.ts";
import { Refusal } from "./refusal.ts";
import { bar, type ProgressLine, tell } from "./terminal.ts";

/** What the commands that read a fleet from files and keep nothing have in common. */

export interface ReadFleet {
  readonly facts: FleetFacts;
  /** As asked for, else the latest date in the files. */
  readonly asOf: IsoDate;
  /** Rows that were refused. */
  readonly refused: number;
}

/** How many rows were refused, and the telling of it. */
function issueTeller(progress: ProgressLine) {
  let refused = 0;
  return {
    refused: () => refused,
    tell: (issues: readonly RowIssue[]) => {
      if (issues.length > 0) progress.clear();
      for (const issue of issues) {
        if (issue.severity === "refused") refused += 1;
        tell(issueLine(issue));
      }
    },
  };
}

type Teller = ReturnType<typeof issueTeller>;

/**
 * Reads the files that the options name. Names each refused row on standard error; a file that cannot be used, or that
 * holds nothing dated, refuses the whole.
 */
export async function readFleet(options: AssessOptions, command: Command, progress: ProgressLine): Promise<ReadFleet> {
  const files = [
    ...options.results.map((file) => ({ file, kind: undefined })),
    ...options.others.map(({ file, kind }) => ({ file, kind })),
  ];
  const sizes = await Promise.all([options.models, ...files.map((f) => f.file)].map(readableSize));
  const issues = issueTeller(progress);
  const models = await readModels(options.models, issues, command);
  const known: KnownFleet = { models, units: new Map(), today: null };
  const assembler = factAssembler(known);
  const totalBytes = sizes.reduce((a, b) => a + b, 0);
  let bytesBefore = 0;
  for (const { file, kind } of files) {
    const { reading } = options;
    const take = { file, kind, known, issues, reading, bytesBefore, totalBytes, command, progress };
    bytesBefore += await readInto(assembler, take).catch(refuseChange);
  }
  const { facts, issues: found } = assembler.finish();
  issues.tell(found);
  const asOf = options.asOf ?? latestDate(facts);
  if (asOf === null) throw new Refusal("The files hold no dated row that could be taken; give the date with --as-of.");
  if (options.asOf === null && asOf > tomorrow(new Date()))
    tell(
      `The latest date in the files, ${asOf}, lies ahead of today: all is told as of that day. Give the right day with --as-of.`,
    );
  for (const line of leftOutLines(facts, asOf)) tell(line);
  return { facts, asOf, refused: issues.refused() };
}

/** In some time zone it may be that day already. */
const tomorrow = (now: Date): IsoDate => addDays(now.toISOString().slice(0, 10), 1);

/** What lies after the as-of date is no fault of the files, but nobody should have to find out that it was left out. */
function leftOutLines(facts: FleetFacts, asOf: IsoDate): string[] {
  const rows = new Map<string, number>();
  const { tests, repairs, meterReadings, checks, judgements } = facts;
  const count = ({ date, file }: { readonly date: IsoDate; readonly file: string }, of = 1) => {
    if (date > asOf) rows.set(file, (rows.get(file) ?? 0) + of);
  };
  for (const test of tests) count(test, test.readings.length);
  for (const fact of [...repairs, ...meterReadings, ...checks, ...judgements]) count(fact);
  return [...rows].map(
    ([file, n]) =>
      `${file}: ${n === 1 ? "1 reading or row lies" : `${numberWords(n)} readings or rows lie`} after ${asOf}, the as-of date, and ${n === 1 ? "was" : "were"} left out.`,
  );
}

const doneBy = (command: Command) =>
  command === "backtest" ? "tested" : command === "plan" || command === "budget" ? "planned" : "assessed";

async function readModels(file: string, issues: Teller, command: Command): Promise<ReadonlyMap<string, EngineModel>> {
  const models = new Map<string, EngineModel>();
  const known = { models, today: null };
  for await (const chunk of readFleetFile({ source: bytesOf(file), file, known, kind: "engine-models" })) {
    issues.tell(chunk.issues);
    for (const model of chunk.models) models.set(model.id, model);
  }
  if (issues.refused() > 0)
    throw new Refusal(`The engine models in ${file} are not usable; nothing was ${doneBy(command)}.`);
  return models;
}

interface FileToTake {
  readonly file: string;
  /** Left out: test results, of either layout. */
  readonly kind: FileKind | undefined;
  readonly known: KnownFleet;
  readonly issues: Teller;
  readonly reading: ReadingChoice;
  readonly bytesBefore: number;
  readonly totalBytes: number;
  readonly command: Command;
  readonly progress: ProgressLine;
}

async function readInto(assembler: FactAssembler, take: FileToTake): Promise<number> {
  const { file, kind, known, issues, reading, bytesBefore, totalBytes, command, progress } = take;
  const asked = kind === undefined ? {} : { kind };
  const source = { ...(await fileToRead(file)), choice: reading };
  const look = await lookThrough(source);
  const { bytes, ...text } = await readableText(source, look);
  for await (const chunk of readFleetFile({ ...text, file, known, ...asked })) {
    issues.tell(chunk.issues);
    if (chunk.fileRefused) throw new Refusal(`The file ${file} could not be used; nothing was ${doneBy(command)}.`);
    if (kind === undefined && chunk.kind !== null && !chunk.kind.startsWith("tests-")) {
      throw new Refusal(`${file} holds no test results${optionFor(chunk.kind, file)}. See borecast ${command} --help`);
    }
    assembler.add(chunk);
    progress.show(`Reading  ${bar((bytesBefore + bytes()) / Math.max(1, totalBytes))}`);
  }
  return look.bytes;
}

/** A file that changes while it is read is a slip of the person's, not of the program. */
const refuseChange = (error: unknown): never => {
  throw error instanceof FileChanged ? new Refusal(error.message) : error;
};

const optionFor = (kind: FileKind, file: string) =>
  `, but ${kind === "engine-models" ? "engine models" : kind}; give it as --${kind === "engine-models" ? "models" : kind} ${file}`;

/** The latest date of anything that happened; null: nothing did. */
function latestDate({ tests, repairs, meterReadings, checks }: FleetFacts): IsoDate | null {
  let latest: IsoDate | null = null;
  for (const facts of [tests, repairs, meterReadings, checks]) {
    for (const { date } of facts) if (latest === null || date > latest) latest = date;
  }
  return latest;
}
