import { describe, expect, it } from "vitest";
import { crossingInWords } from "@/app/_ui/unit/crossing-words.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { diesel } from "./fixture.ts";

const plain = formatsOf(plainPreferences);

const projected = diesel.assessment.repairs.topEnd;
const say = (crossing: Crossing, asOf = "2026-08-31") =>
  crossingInWords(crossing, "28 %", { asOf, meterUnit: "km", f: plain }).replaceAll("\u00a0", " ");

describe("crossingInWords", () => {
  it("tells early, late and likely by month and meter", () => {
    expect(say(projected)).toBe(
      "Limit of 28 % likely met in Nov 2026 (156,800 km); 8 in 10 between Sep 2026 (151,900 km) and Feb 2027 (168,300 km).",
    );
  });

  it("tells a likely date by its day where early and late are near each other", () => {
    const near = { ...projected, date: { p10: "2026-09-20", p50: "2026-10-02", p90: "2026-10-29" } };
    expect(say(near)).toBe(
      "Limit of 28 % likely met on 2 Oct 2026 (156,800 km); 8 in 10 between 20 Sep 2026 (151,900 km) and 29 Oct 2026 (168,300 km).",
    );
    expect(say(near, "2026-09-20")).toContain("likely met on 2 Oct 2026");
  });

  it("tells a limit met only since the last test as probable", () => {
    const crossed = { ...projected, status: "crossed" as const };
    expect(say(crossed)).toBe("At or past its limit of 28 % now.");
    const after = { date: "2026-05-03", level: plain.level(27, "%") };
    expect(
      crossingInWords(crossed, "28 %", { asOf: "2026-08-31", meterUnit: "km", f: plain, after }).replaceAll(
        "\u00a0",
        " ",
      ),
    ).toBe("Probably past its limit of 28 % by now: at 27 % when last tested, on 3 May 2026.");
  });

  it("makes up no quantile that lies beyond the horizon", () => {
    const noLate = {
      ...projected,
      meter: { ...projected.meter, p90: null },
      date: { ...projected.date, p90: null },
    };
    expect(say(noLate)).toContain("the late end lies beyond the horizon");
    const noLikely = {
      ...projected,
      meter: { p10: 151900, p50: null, p90: null },
      date: { p10: "2026-09-28", p50: null, p90: null },
    };
    expect(say(noLikely)).toBe("Limit of 28 % hardly met before Sep 2026 (151,900 km); likely beyond the horizon.");
  });

  it("rules nothing out before an early end that is today's date", () => {
    const early = projected.date.p10 ?? "";
    expect(say(projected, early)).toBe(
      "Limit of 28 % likely met in Nov 2026 (156,800 km); 8 in 10 between now and Feb 2027 (168,300 km).",
    );
    const open = (date: Partial<Crossing["date"]>) => ({
      ...projected,
      date: { ...projected.date, p90: null, ...date },
    });
    expect(say(open({}), early)).toContain("likely met in Nov 2026 (156,800 km), perhaps now;");
    expect(say(open({ p50: null }), early)).toBe("Limit of 28 % may be met now, but more likely beyond the horizon.");
  });

  it("says of the other states what they are", () => {
    expect(say({ ...projected, status: "crossed" })).toBe("At or past its limit of 28 % now.");
    expect(say({ ...projected, status: "not-foreseen" })).toContain("not foreseen");
    expect(say({ ...projected, status: "too-few-tests" })).toContain("Too few tests");
  });
});
