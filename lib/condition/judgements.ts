import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";

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
        const words = `${which}accepted by ${by} as that of a fault, counts in full: ${reason}`;
        noteDoubt(sheet, t, { code: "accepted", cylinder, weight: 1, words });
      } else if (verdict === "accepted") {
        const words = `${which}accepted by ${by}, counts in full: ${reason}`;
        noteDoubt(sheet, t, { code: "accepted", cylinder, weight: 1, words });
      }
    }
  }
}
