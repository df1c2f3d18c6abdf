import type { EngineHistory, SealedTest } from "../sealing/types.ts";
import { dateWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { judgementOf } from "./judgement-of.ts";
import { madeAfter } from "./series.ts";

/**
 * A later test of the same life of which a person says that no fault had begun in the cylinder by then: that a fault had begun
 * by an earlier one cannot be true beside it. The word on the later test holds, in the forecast too (lib/projection/faults.ts).
 */
function supersededBy({ tests, repairs }: EngineHistory, t: number, cylinder: number): SealedTest | undefined {
  const test = tests[t] as SealedTest;
  return tests.find(
    (later, u) =>
      u > t &&
      later.measure === test.measure &&
      judgementOf(later, cylinder)?.verdict === "no-fault" &&
      !repairs.some(
        (repair) => repair.cylinders.includes(cylinder) && madeAfter(later, repair) && !madeAfter(test, repair),
      ),
  );
}

/**
 * What persons made of the tests, before anything else is asked of them: what was set aside is kept and not used, neither
 * for the trend nor to judge other tests by; what was accepted is told as such, and no later doubt takes weight from it. That a reading shows no fault is no doubt of it: the wear
 * model asks for that itself.
 */
export function noteJudgements(sheet: DoubtSheet): void {
  for (const [t, test] of sheet.history.tests.entries()) {
    for (const { cylinder, verdict, reason, by } of test.judgements ?? []) {
      const which = cylinder === null ? "" : `cylinder ${cylinder} `;
      if (verdict === "set-aside") {
        noteDoubt(sheet, t, { code: "set-aside", cylinder, weight: 0, words: `${which}set aside by ${by}: ${reason}` });
      } else if (verdict === "fault") {
        const later = cylinder === null ? undefined : supersededBy(sheet.history, t, cylinder);
        const no = later === undefined || cylinder === null ? undefined : judgementOf(later, cylinder);
        const superseded =
          later === undefined || no === undefined
            ? ""
            : `; superseded: of the later test of ${dateWords(later.date)} ${no.by} says that no fault had begun (${no.reason})`;
        const words = `${which}accepted by ${by} as that of a fault, counts in full: ${reason}${superseded}`;
        noteDoubt(sheet, t, { code: "accepted", cylinder, weight: 1, words });
      } else if (verdict === "accepted") {
        const words = `${which}accepted by ${by}, counts in full: ${reason}`;
        noteDoubt(sheet, t, { code: "accepted", cylinder, weight: 1, words });
      }
    }
  }
}
