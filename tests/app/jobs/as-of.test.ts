import { describe, expect, it } from "vitest";
import { asOfDate, dateIn, lastDateTaken, startOfDate } from "@/app/_jobs/as-of.ts";

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

describe("the instant at which a date begins", () => {
  it.each([
    ["UTC", "2026-08-03", "2026-08-03T00:00:00.000Z"],
    ["Europe/Berlin", "2026-08-03", "2026-08-02T22:00:00.000Z"],
    ["Europe/Berlin", "2026-03-29", "2026-03-28T23:00:00.000Z"],
    ["America/Los_Angeles", "2026-11-01", "2026-11-01T07:00:00.000Z"],
    ["Pacific/Kiritimati", "2026-01-01", "2025-12-31T10:00:00.000Z"],
    ["Asia/Kathmandu", "2026-01-01", "2025-12-31T18:15:00.000Z"],
    // Clocks went from 24:00 to 01:00: this date has no midnight.
    ["Africa/Cairo", "2026-04-24", "2026-04-23T22:00:00.000Z"],
  ])("in %s, %s is %s", (zone, date, instant) => expect(startOfDate(zone, date).toISOString()).toBe(instant));
});
