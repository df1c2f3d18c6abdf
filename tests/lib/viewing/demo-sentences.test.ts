import { beforeAll, expect, test } from "vitest";
import { reportUnit } from "@/lib/report.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { readPreferences } from "@/lib/viewing/preferences.ts";
import { wordsFor } from "@/lib/viewing/sentences.ts";
import { assessFleet, readDemo } from "../demo-fleet.ts";

/** Every sentence that the demo fleet's pages print, in other units: none may keep a figure of the old ones. */
let sentences: readonly string[] = [];

beforeAll(async () => {
  const { facts } = await readDemo();
  const reports = [...assessFleet(facts).units.values()].map(reportUnit);
  sentences = [...new Set(reports.flatMap(toldBy))];
});

function toldBy({ assessment, ...report }: UnitReport): string[] {
  return [
    report.finding,
    report.howSure,
    report.place.title,
    report.place.detail,
    assessment.reason,
    ...assessment.questions,
    ...assessment.warnings,
    ...report.next.flatMap((step) => [step.title, step.detail]),
    ...report.tests.flatMap((line) => [...line.referral, ...line.doubts]),
    ...assessment.cylinders.flatMap((c) => [
      c.reason,
      ...c.measures.map((m) => m.reason),
      ...c.causes.flatMap((cause) => [...cause.because, ...cause.against]),
    ]),
  ];
}

test("pressures, distances and dates of all of them follow the viewer", () => {
  expect(sentences.length).toBeGreaterThan(300);
  expect(sentences.filter((sentence) => /\d kPa|\d km/.test(sentence)).length).toBeGreaterThan(30);
  const abroad = readPreferences("psi_mi_1000_dd/mm/yyyy_comma-point");
  const left = sentences
    .map((sentence) => wordsFor(sentence, abroad))
    .filter((told) => /kPa|\bkm\b|\d (Jan|Jun|Aug) /.test(told));
  expect(left).toEqual([]);
});

test("a pressure is never told without its unit", () => {
  const figuresWithUnit = /\d[\d,.]*(?:(?:, | and | to )\d[\d,.]*)* kPa/g;
  const left = sentences.map((sentence) => sentence.replace(figuresWithUnit, ""));
  expect(left.filter((told) => /(?:compression|minimum) \d[\d,.]*(?! %|[\d,.])/.test(told))).toEqual([]);
});

test("a cylinder, a count and a share stay as they are in every unit", () => {
  const abroad = readPreferences("bar_mi_1000_d-mon-yyyy_comma-point");
  for (const sentence of sentences.filter((s) => !/kPa|\bkm\b/.test(s))) {
    expect(wordsFor(sentence, abroad).replaceAll("\u00a0", " ")).toBe(sentence);
  }
});
