import {
  type Forecaster,
  fewestOutcomes,
  forecasters,
  type Held,
  type LevelGroup,
  type LevelScore,
  type LimitGroup,
  type ReliabilityPoint,
  type TrackRecord,
  type WithinGroup,
} from "../lib/schema/track-record.ts";
import { forecasterWords, heldWords, intervalWords, reasonWords, widthWords } from "../lib/track/words.ts";
import { dateWords, measureWords, numberWords, percentWords, sentenceWords } from "../lib/wording.ts";
import { table } from "./table.ts";

const none = "–";
const figure = (value: number | null, decimals: number, unit = "") =>
  value === null ? none : `${numberWords(value, decimals)}${unit}`;
const share = (value: number | null) => (value === null ? none : percentWords(100 * value));
const count = (some: number, one: string, more = `${one}s`) => `${numberWords(some)} ${some === 1 ? one : more}`;

type Levels = TrackRecord["levels"][number];

/** The record as tables, one below the other. */
export function recordTables(record: TrackRecord): string {
  const { units, forecasts, asOf, levels } = record;
  const whole = units.judged < units.known ? ` of ${numberWords(units.known)}` : "";
  const head = `${count(forecasts, "forecast")} of ${count(units.judged, "unit")}${whole}, made anew as of past tests, held against what came up to ${dateWords(asOf)}.\nUnder ${fewestOutcomes} outcomes counts stand in place of shares. The readings of one test count as one outcome.\n`;
  if (forecasts === 0) return `${head}No past test has three before it and one after it: nothing to tell yet.\n`;
  return [
    head,
    ...levels.flatMap(levelTables),
    limitTables(record),
    warningLines(record),
    calibrationTable(record),
    missTable(record),
  ].join("\n");
}

function levelRow(name: string, forecaster: string, score: LevelScore, { unit }: Levels): string[] {
  const range = (held: Held | undefined) => (held === undefined ? none : heldWords(held));
  return [
    name,
    forecaster,
    numberWords(score.outcomes),
    numberWords(score.readings),
    range(score.coverage?.["50"]),
    range(score.coverage?.["80"]),
    range(score.coverage?.["90"]),
    figure(score.medianError, unit === "%" ? 2 : 1, unit === "%" ? " points" : " kPa"),
    figure(score.pinball, unit === "%" ? 3 : 2),
  ];
}

function levelTables(of: Levels): string[] {
  const header = ["forecast", "tests", "readings", "50 %", "80 %", "90 %", "error", "pinball"];
  const right = [1, 2, 3, 4, 5, 6, 7];
  const overall = forecasters.flatMap((forecaster: Forecaster) => {
    const score = of.overall[forecaster];
    return score === null ? [] : [levelRow("", forecasterWords[forecaster], score, of).slice(1)];
  });
  const grouped = (title: string, groups: readonly LevelGroup[]) =>
    table(
      [title, ...header],
      groups.flatMap(({ name, scores }) =>
        forecasters.flatMap((forecaster) => {
          const score = scores[forecaster];
          const shown = forecaster === "borecast" ? name : "";
          return score === null ? [] : [levelRow(shown, forecasterWords[forecaster], score, of)];
        }),
      ),
      right.map((i) => i + 1),
    );
  const early = of.repairedEarly;
  return [
    `${sentenceWords(measureWords[of.measure])}: later readings against the ranges told for them. A fixed interval tells no level.\n`,
    table(header, overall, right),
    grouped("how far ahead", of.byAhead),
    grouped("engine model", of.byModel),
    grouped("tester", of.byTester),
    reliabilityTable("told chance to read no worse than a quantile", of.reliability),
    `Repaired before any limit was met: the last test lay in its 80 % range in ${numberWords(early.held)} of ${numberWords(early.of)}.\n`,
  ];
}

const reliabilityTable = (title: string, points: readonly ReliabilityPoint[]) =>
  table(
    [title, "came", "of", "share", "95 % interval"],
    points.map((p) => [
      percentWords(Math.round(1000 * p.predicted) / 10),
      numberWords(p.came),
      numberWords(p.of),
      share(p.observed),
      intervalWords(p) ?? none,
    ]),
    [0, 1, 2, 3, 4],
  );

function limitTables({ limits, fixedIntervals }: TrackRecord): string {
  const { overall } = limits;
  const rows = forecasters.map((forecaster) => {
    const { ranges, medianError, pinball } = overall[forecaster];
    const range = (key: "50" | "80" | "90") => {
      const of = ranges?.[key];
      if (of === undefined) return none;
      return of.share === null ? `${of.held} held, ${of.missed} missed, ${of.open} open` : share(of.share);
    };
    return [
      forecasterWords[forecaster],
      range("50"),
      range("80"),
      range("90"),
      share(medianError),
      figure(pinball, 4),
      ...limits.within.map((within) => figure(within.brier[forecaster], 4)),
    ];
  });
  const days = limits.within.map(({ days: some }) => `Brier ${some} d`);
  const base = [
    "the share that came",
    none,
    none,
    none,
    none,
    none,
    ...limits.within.map((w) => figure(w.brierOfShare, 4)),
  ];
  const within = limits.within.map(
    ({ days: some, forecasts, met, cylinders }) =>
      `Within ${some} days: ${count(met, "forecast")} of ${numberWords(forecasts)} came to meet the limit, of ${count(cylinders, "cylinder")}.`,
  );
  const rule = fixedIntervals.map(({ engineModel, meterUnit, interval, lives }) => [
    engineModel,
    interval === null ? none : `${numberWords(interval)} ${meterUnit}`,
    numberWords(lives),
  ]);
  const { borecast } = overall;
  return [
    `When limits were met: ${count(borecast.forecasts, "forecast")}, after ${numberWords(borecast.met)} of which it was met, by ${count(borecast.outcomes, "cylinder")}.\n`,
    table(
      ["forecast", "50 %", "80 %", "90 %", "error of distance", "pinball", ...days],
      [...rows, base],
      [1, 2, 3, 4, 5, 6, 7, 8],
    ),
    `${within.join("\n")}\n`,
    limitGroups("engine model", limits.byModel, limits.withinByModel),
    limitGroups("tester", limits.byTester, limits.withinByTester),
    limits.reliability.length === 0 ? "" : reliabilityTable("told chance within a year", limits.reliability),
    table(["fixed interval, by hindsight", "every", "lives ended"], rule, [1, 2]),
  ].join("\n");
}

const limitGroups = (title: string, groups: readonly LimitGroup[], years: readonly WithinGroup[]) =>
  table(
    [title, "forecasts", "met", "cylinders", "80 % held", "error of distance", "Brier 365 d"],
    groups.map(({ key, name, scores: { borecast } }) => [
      name,
      numberWords(borecast.forecasts),
      numberWords(borecast.met),
      numberWords(borecast.outcomes),
      share(borecast.ranges?.["80"].share ?? null),
      share(borecast.medianError),
      figure(years.find((of) => of.key === key)?.within.brier.borecast ?? null, 4),
    ]),
    [1, 2, 3, 4, 5, 6],
  );

function warningLines({ warnings, doubtedReadings }: TrackRecord): string {
  const { met, warned, medianDays, opened, openedFlagged, flaggedSound, faultUnflagged } = warnings;
  const time = medianDays === null ? "" : `, ${count(medianDays, "day")} before in the middle`;
  return [
    `Warned: ${numberWords(warned)} of ${count(met, "limit")} met were told to plan or past the limit before${time}.`,
    `Opened, with a forecast before and a finding: ${numberWords(opened)}; ${numberWords(openedFlagged)} were flagged, ${numberWords(flaggedSound)} of these were sound; ${numberWords(faultUnflagged)} at fault were not flagged.`,
    `${count(doubtedReadings, "later reading")} judged nothing, for they are doubted themselves.\n`,
  ].join("\n");
}

const calibrationTable = ({ calibration }: TrackRecord) =>
  table(
    ["ranges of", "measure", "tests", "80 % held, all forecasts", "factor", "with the factor of others", ""],
    calibration.map((of) => [
      of.engineModel,
      measureWords[of.measure],
      numberWords(of.outcomes),
      share(of.before),
      numberWords(of.factor, 2),
      share(of.after),
      of.raw === null ? "can’t be told yet" : widthWords(of.factor),
    ]),
    [2, 3, 4, 5],
  );

function missTable({ misses, reasons }: TrackRecord): string {
  const all = reasons.filter((r) => r.count > 0).map((r) => `${reasonWords[r.code]} ${numberWords(r.count)}`);
  if (misses.length === 0) return "No reading lay beyond its 90 % range.\n";
  const digits = (measure: string) => (measure === "leak-down" ? 1 : 0);
  return [
    `Readings beyond their 90 % range: ${all.join(", ")}. The worst:\n`,
    table(
      ["unit", "cyl", "measure", "foretold", "came", "early to late", "read", "reason", ""],
      misses.map((m) => [
        m.unit,
        String(m.cylinder),
        measureWords[m.measure],
        m.made,
        m.came,
        `${numberWords(m.p10, digits(m.measure))} to ${numberWords(m.p90, digits(m.measure))}`,
        numberWords(m.reading, digits(m.measure)),
        reasonWords[m.reason.code],
        m.reason.words,
      ]),
      [1, 5, 6],
    ),
  ].join("\n");
}
