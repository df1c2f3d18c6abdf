import { describe, expect, it } from "vitest";
import {
  changesAddress,
  changesAddressFields,
  changesFileAddress,
  readChangesAddress,
} from "@/app/_ui/changes/address.ts";

describe("the address of the page of changes", () => {
  it("is read as it was written", () => {
    const view = readChangesAddress({
      since: "2026-08-03",
      kind: "window",
      direction: "worse",
      depot: "North & South",
      page: "3",
    });
    expect(view).toMatchObject({
      since: "2026-08-03",
      kind: "window",
      direction: "worse",
      depot: "North & South",
      page: 3,
    });
    const address = changesAddress(view, { page: 3 });
    expect(address).toBe("/changes?since=2026-08-03&kind=window&direction=worse&depot=North+%26+South&page=3");
    expect(readChangesAddress(Object.fromEntries(new URL(address, "http://x").searchParams))).toEqual(view);
  });

  it("that asks for nothing is since the last visit, all kinds, the first page", () => {
    const plain = readChangesAddress({});
    expect(plain).toMatchObject({ since: "last-visit", kind: null, direction: null, depot: null, page: 1 });
    expect(changesAddressFields(plain)).toEqual([]);
    expect(changesAddress(plain, {})).toBe("/changes");
  });

  it.each([
    { since: "yesterday", kind: "all", direction: "up", page: "0", depot: "" },
    { since: "2026-02-30", kind: "", direction: "", page: "1.5" },
    { since: ["last-visit", "2026-01-01"], page: "x" },
  ])("leaves out what it does not understand: %o", (parts) =>
    expect(readChangesAddress(parts)).toEqual(readChangesAddress({})),
  );

  it("leads back to the first page with any other change, and downloads all pages", () => {
    const third = readChangesAddress({ page: "3", kind: "band" });
    expect(changesAddress(third, { depot: "North" })).toBe("/changes?kind=band&depot=North");
    expect(changesFileAddress(third)).toBe("/changes.csv?kind=band");
  });
});
