import { describe, expect, test } from "vitest";
import { asOfDate, dateInZone } from "../../app/_ui/as-of.ts";

describe("today", () => {
  const lateEvening = new Date("2026-08-31T22:30:00Z");

  test("is told in the fleet's time zone", () => {
    expect(dateInZone(lateEvening, "UTC")).toBe("2026-08-31");
    expect(dateInZone(lateEvening, "Asia/Tokyo")).toBe("2026-09-01");
    expect(dateInZone(lateEvening, "Pacific/Honolulu")).toBe("2026-08-31");
  });

  test("gives way to a date fixed in the settings", () => {
    expect(asOfDate({ asOf: "2026-06-30", timeZone: "UTC" }, lateEvening)).toBe("2026-06-30");
    expect(asOfDate({ asOf: null, timeZone: "Asia/Tokyo" }, lateEvening)).toBe("2026-09-01");
  });
});
