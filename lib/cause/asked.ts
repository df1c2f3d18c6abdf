import type { CheckKind } from "../schema/words.ts";
import { type EngineView, medianOfOthers } from "./engine-view.ts";
import type { Question } from "./evidence-row.ts";
import { checksInForce } from "./observe-checks.ts";
import { wetBesideDry } from "./observe-oil-and-stroke.ts";

/**
 * The questions that the tests and checks up to the view's day have put to a cylinder, whatever the answer: only what was
 * asked can be learned from, and what was asked need not be asked again.
 */
export function questionsAsked(view: EngineView, cylinder: number): readonly Question[] {
  const asked: Question[] = [];
  const { byMeasure } = view.recent;
  const at = cylinder - 1;
  const leak = view.leakDown[at] ?? null;
  const dry = view.compression[at] ?? null;
  if (byMeasure["leak-down"][at]?.some(({ heardAt }) => heardAt.length > 0)) asked.push("heard");
  if (leak !== null && medianOfOthers(view.leakDown, [cylinder]) !== null) {
    asked.push("siblings");
    if (leak.readings.length > 1) asked.push("course");
  }
  if (dry !== null && view.model.compression !== undefined && medianOfOthers(view.compression, [cylinder]) !== null) {
    asked.push(leak === null ? "compression" : "compression-beside-leakage");
    if (dry.readings.length > 1 && leak !== null) asked.push("compression-fall-beside-leakage");
    if (dry.readings.length > 1 && !asked.includes("course")) asked.push("compression-course");
  }
  if (wetBesideDry(view, cylinder) !== null) asked.push("wet");
  if (dry?.readings[0]?.firstStrokeShare != null) asked.push("first-stroke");
  const checks = new Set<CheckKind>(checksInForce(view, cylinder).map(({ check }) => check));
  return [...asked, ...[...checks].map((check) => `check-${check}` as const)];
}
