import { describe, expect, it } from "vitest";
import type { PlanOutcome } from "@/app/_jobs/plan-papers.ts";
import { differenceWords, doneFinding, inOneCurrency, tookWords } from "@/app/_ui/plan-papers/done-words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { repairFact } from "../../lib/sealing/facts.ts";

const f = formatsOf(plainPreferences);

const outcome = (more: Partial<PlanOutcome> = {}): PlanOutcome => ({
  unit: "V-104",
  repair: repairFact(),
  planAsOf: "2025-05-05",
  scopes: ["top-end"],
  start: "2025-06-02",
  depot: "Lowmarsh",
  currency: "EUR",
  forecast: { hours: 14, cost: 174_000, daysOff: 3 },
  made: { hours: 16.5, cost: 170_000, daysOff: null },
  ...more,
});

describe("what a repair took", () => {
  it("stands beside its forecast with the difference; what is missing is told as missing", () => {
    const { forecast, made } = outcome();
    expect(tookWords(f, "hours", made.hours, "EUR")).toBe("16.5 h");
    expect(differenceWords(f, "hours", outcome())).toBe("+2.5 h");
    expect(differenceWords(f, "cost", outcome()).replaceAll("\u00a0", " ")).toBe("−EUR 40");
    expect(differenceWords(f, "daysOff", outcome())).toBe("–");
    expect(tookWords(f, "daysOff", null, "EUR")).toBe("not known");
    expect(tookWords(f, "cost", forecast.cost, null)).toBe("not known");
    expect(differenceWords(f, "hours", outcome({ made: forecast }))).toBe("as forecast");
  });

  it("is told in counts below 20 repairs, and as the middle ratio from there on", () => {
    expect(doneFinding(f, [])).toBe("No repair that a plan had booked is on file yet.");
    expect(doneFinding(f, [outcome()])).toBe(
      "1 repair that a plan had booked is on file; both forecast and actual are known of 1 in hours and 1 in cost: too few to tell more than the sums.",
    );
    const many = Array.from({ length: 20 }, () => outcome({ made: { hours: 15.4, cost: null, daysOff: null } }));
    expect(doneFinding(f, many).replaceAll("\u00a0", " ")).toBe(
      "20 repairs that a plan had booked are on file; half of them took at least 110 % of the hours forecast.",
    );
  });

  it("is summed in the currency of the newest alone", () => {
    const [told, other, unread] = [outcome(), outcome({ currency: "USD" }), outcome({ currency: null })];
    expect(inOneCurrency([unread, told, other])).toEqual({ currency: "EUR", same: [told] });
    expect(inOneCurrency([unread])).toEqual({ currency: null, same: [unread] });
  });
});
