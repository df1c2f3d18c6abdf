import { expect, test } from "vitest";
import { engineAddress, enginesAddress, readEnginesAddress } from "@/app/_ui/engines/address.ts";

test("the list's address is read as it is written; what is as at first is left out", () => {
  expect(enginesAddress({ search: "", page: 1 })).toBe("/engines");
  for (const view of [
    { search: "QD6 & 43", page: 1 },
    { search: "", page: 3 },
    { search: "ä+b", page: 12 },
  ]) {
    const url = new URL(enginesAddress(view), "http://x");
    expect(readEnginesAddress(Object.fromEntries(url.searchParams))).toEqual(view);
  }
});

test("what is not understood counts as not asked for", () => {
  for (const page of ["0", "-1", "1.5", "x", ["2", "3"]]) {
    expect(readEnginesAddress({ page, search: undefined }).page).toBe(Array.isArray(page) ? 2 : 1);
  }
  expect(readEnginesAddress({ search: "x".repeat(300) }).search).toHaveLength(200);
});

test("an engine's key is a part of its address, whatever is in it", () => {
  expect(engineAddress("V-101 #1")).toBe("/engines/V-101%20%231");
  expect(engineAddress("a/b")).toBe("/engines/a%2Fb");
});
