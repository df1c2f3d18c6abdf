import { expect, test } from "vitest";
import { importAddress, plainImportView, readImportAddress } from "@/app/_ui/import/address.ts";

test("a page of each list is kept in the address, first pages are not", () => {
  const view = { ...plainImportView, refused: 3, changes: 2 };
  expect(importAddress("a b", view)).toBe("/import/a%20b?refused=3&changes=2");
  expect(importAddress("x")).toBe("/import/x");
  const read = readImportAddress(Object.fromEntries(new URL(importAddress("x", view), "http://h").searchParams));
  expect(read).toEqual(view);
});

test("what is not a page is the first", () => {
  expect(readImportAddress({ refused: "0", warnings: "-1", mentions: "1e9", changes: ["2", "3"] })).toEqual({
    ...plainImportView,
    changes: 2,
  });
});
