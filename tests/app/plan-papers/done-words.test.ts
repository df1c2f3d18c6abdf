import { describe, expect, it } from "vitest";
import type { PlanOutcome } from "@/app/_jobs/plan-papers.ts";
import { besideWords, doneFinding, inOneCurrency, totalWords } from "@/app/_ui/plan-papers/done-words.ts";
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
    const plain = (text: string) => text.replaceAll("\u00a0", " ");
    expect(besideWords(f, "hours", outcome())).toBe("14 h → 16.5 h, +2.5 h");
    expect(plain(besideWords(f, "cost", outcome()))).toBe("EUR 1,740 → EUR 1,700, −EUR 40");
    expect(besideWords(f, "daysOff", outcome())).toBe("3 days → not known");
    const unread = { forecast: { hours: null, cost: null, daysOff: null }, currency: null };
    expect(besideWords(f, "hours", outcome(unread))).toBe("not known → 16.5 h");
    expect(besideWords(f, "hours", outcome({ made: outcome().forecast }))).toBe("14 h → 14 h, as forecast");
  });

  it("is summed over the repairs of which both are known", () => {
    const half = outcome({ made: { hours: null, cost: null, daysOff: 4 } });
    expect(totalWords(f, "hours", [outcome(), half])).toBe("14 h → 16.5 h, +2.5 h; of 1");
    expect(totalWords(f, "daysOff", [outcome(), half])).toBe("3 days → 4 days, +1 day; of 1");
    expect(totalWords(f, "daysOff", [outcome()])).toBe("none known");
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
