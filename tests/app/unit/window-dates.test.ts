import { expect, it } from "vitest";
import { windowDates } from "@/app/_ui/unit/window-dates.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const window = (p10: string | null, p50: string | null, p90: string | null, status: Crossing["status"] = "projected") =>
  windowDates(
    { status, meter: { p10: null, p50: null, p90: null }, date: { p10, p50, p90 }, probabilityWithinYear: null },
    f,
  ).replaceAll("\u00a0", " ");

it("tells a wide window by months, as the page above does, and a short one by days", () => {
  expect(window("2026-10-01", "2027-03-04", "2027-12-01")).toBe("Oct 2026, Mar 2027, Dec 2027");
  expect(window("2026-09-12", "2026-09-24", "2026-10-13")).toBe("12 Sep 2026, 24 Sep 2026, 13 Oct 2026");
  expect(window("2030-01-01", null, null)).toBe("Jan 2030, beyond the horizon, beyond the horizon");
  expect(window("2026-06-30", "2026-06-30", "2026-06-30", "crossed")).toBe("at or past it now");
});
