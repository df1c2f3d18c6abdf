import { guarded } from "../app/_jobs/guarded.ts";
import { lookThrough } from "../app/_jobs/look-through.ts";
import { FileChanged, readableText } from "../app/_jobs/readable-text.ts";
import { assessUnit } from "../lib/assess.ts";
import { fitPools } from "../lib/assessment/pools.ts";
import { type FactAssembler, factAssembler } from "../lib/intake/assemble.ts";
import { readFleetFile } from "../lib/intake/read-file.ts";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { FleetFacts, IsoDate } from "../lib/schema/facts.ts";
import type { KnownFleet, RowIssue } from "../lib/schema/intake.ts";
import type { ReadingChoice } from "../lib/schema/reading.ts";
import { settingsSchema } from "../lib/schema/settings.ts";
import type { FileKind } from "../lib/schema/words.ts";
import { indexFleet } from "../lib/sealing/seal.ts";
import { numberWords } from "../lib/wording.ts";
import { readAssessOptions } from "./assess-options.ts";
import { bytesOf, fileToRead, readableSize } from "./files.ts";
import { fleetTable, type TableRow, tableRow } from "./fleet-table.ts";
import { issueLine } from "./issue-lines.ts";
import { Refusal } from "./refusal.ts";
import { bar, print, progressLine, tell } from "./terminal.ts";

const progress = progressLine();

/** How many rows were refused, and the telling of it. */
function issueTeller() {
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

/** `borecast assess`: stateless; the contract fixes its options, its JSON and its exit status. */
export async function assess(args: readonly string[]): Promise<number> {
  const options = readAssessOptions(args);
  const files = [
    ...options.results.map((file) => ({ file, kind: undefined })),
    ...options.others.map(({ file, kind }) => ({ file, kind })),
  ];
  const sizes = await Promise.all([options.models, ...files.map((f) => f.file)].map(readableSize));
  const issues = issueTeller();
  const models = await readModels(options.models, issues);
  const known: KnownFleet = { models, units: new Map(), today: null };
  const assembler = factAssembler(known);
  const totalBytes = sizes.reduce((a, b) => a + b, 0);
  let bytesBefore = 0;
  for (const { file, kind } of files) {
    const { reading } = options;
    const take = { file, kind, known, issues, reading, bytesBefore, totalBytes };
    bytesBefore += await readInto(assembler, take).catch(refuseChange);
  }
  const { facts, issues: found } = assembler.finish();
  issues.tell(found);
  const asOf = options.asOf ?? latestDate(facts);
  if (asOf === null) throw new Refusal("The files hold no dated row that could be taken; give the date with --as-of.");
  const left = await printAssessment(facts, { asOf, horizonYears: options.horizonYears, json: options.json });
  return issues.refused() > 0 || left > 0 ? 1 : 0;
}

async function readModels(file: string, issues: Teller): Promise<ReadonlyMap<string, EngineModel>> {
  const models = new Map<string, EngineModel>();
  const known = { models, today: null };
  for await (const chunk of readFleetFile({ source: bytesOf(file), file, known, kind: "engine-models" })) {
    issues.tell(chunk.issues);
    for (const model of chunk.models) models.set(model.id, model);
  }
  if (issues.refused() > 0) throw new Refusal(`The engine models in ${file} are not usable; nothing was assessed.`);
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
}

async function readInto(assembler: FactAssembler, take: FileToTake): Promise<number> {
  const { file, kind, known, issues, reading, bytesBefore, totalBytes } = take;
  const asked = kind === undefined ? {} : { kind };
  const source = { ...(await fileToRead(file)), choice: reading };
  const look = await lookThrough(source);
  const { bytes, ...text } = await readableText(source, look);
  for await (const chunk of readFleetFile({ ...text, file, known, ...asked })) {
    issues.tell(chunk.issues);
    if (chunk.fileRefused) throw new Refusal(`The file ${file} could not be used; nothing was assessed.`);
    if (kind === undefined && chunk.kind !== null && !chunk.kind.startsWith("tests-")) {
      throw new Refusal(`${file} holds no test results${optionFor(chunk.kind, file)}. See borecast assess --help`);
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

interface Printing {
  readonly asOf: IsoDate;
  readonly horizonYears: number;
  readonly json: boolean;
}

/**
 * Unit by unit, so that no more than one lies in memory: a line of JSON each, or a row of the table. Names each unit
 * that cannot be assessed, goes on with the others, and gives how many those were.
 */
async function printAssessment(facts: FleetFacts, { asOf, horizonYears, json }: Printing): Promise<number> {
  const settings = settingsSchema.parse({ horizonYears });
  progress.show("Putting the tests in order …");
  const index = indexFleet(facts, { asOf });
  for (const problem of index.problems) tell(problem);
  const pools = fitPools(index, asOf);
  const rows: TableRow[] = [];
  let left = 0;
  if (json) await print(`{"schemaVersion":1,"asOf":"${asOf}","units":[`);
  for (const [i, unit] of index.units.entries()) {
    const assessed = guarded(`the unit ${unit.unit}`, () => assessUnit(index, unit, { asOf, settings, pools }));
    if (!assessed.ok) {
      progress.clear();
      tell(`${assessed.error.words}.`);
      left += 1;
      continue;
    }
    const { assessment } = assessed.value;
    if (json) await print(`${i === left ? "\n" : ",\n"}${JSON.stringify(assessment)}`);
    else rows.push(tableRow(assessment));
    progress.show(`Assessing  ${bar((i + 1) / index.units.length)}  ${numberWords(i + 1)} units`);
  }
  progress.clear();
  await print(json ? "\n]}\n" : fleetTable(rows, asOf));
  return left;
}
