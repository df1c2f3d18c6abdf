import { expect, test } from "vitest";
import { nameInAddress, unitAddress } from "@/app/_ui/unit-address.ts";

test.each(["B-1", "50%", "a%20b", "a b", "x/y", "Nº 7?", "50%25"])("%s is found again at its address", (unit) => {
  expect(nameInAddress(unitAddress(unit).slice("/units/".length))).toBe(unit);
});

test("an address that is no encoded text names no unit", () => {
  expect(nameInAddress("%")).toBeNull();
  expect(nameInAddress("50%")).toBeNull();
});
