import { describe, expect, it } from "vitest";
import { asOfDate, dateIn, lastDateTaken } from "@/app/_jobs/as-of.ts";

const lateEvening = new Date("2026-06-30T23:30:00Z");

describe("the date that the fleet is told for", () => {
  it("is today where the fleet is, not where the server is", () => {
    expect(dateIn("UTC", lateEvening)).toBe("2026-06-30");
    expect(dateIn("Europe/Berlin", lateEvening)).toBe("2026-07-01");
    expect(dateIn("America/Los_Angeles", new Date("2027-01-01T03:00:00Z"))).toBe("2026-12-31");
    expect(asOfDate({ asOf: null, timeZone: "Europe/Berlin" }, lateEvening)).toBe("2026-07-01");
  });

  it("is a fixed date where one is set", () => {
    expect(asOfDate({ asOf: "2026-08-31", timeZone: "UTC" }, lateEvening)).toBe("2026-08-31");
  });

  it("does not keep rows of today out when the fixed date lies behind", () => {
    expect(lastDateTaken({ asOf: "2025-01-01", timeZone: "UTC" }, lateEvening)).toBe("2026-06-30");
    expect(lastDateTaken({ asOf: "2026-08-31", timeZone: "UTC" }, lateEvening)).toBe("2026-08-31");
  });

  it("throws for a time zone that is not known", () => {
    expect(() => dateIn("Nowhere/Else", lateEvening)).toThrow(RangeError);
  });
});
