import { expect, test } from "vitest";
import { nextWidth } from "@/lib/track/widths.ts";

test.each([
  ["begins", 1, 1.2, 1.2],
  ["does not begin within 2 % of 1", 1, 1.019, 1],
  ["ceases where the past asks for none", 1.2, 1, 1],
  ["ceases within 2 % of 1, however near the one in force", 1.03, 1.015, 1],
  ["stays within 2 % of the one in force", 1.2, 1.22, 1.2],
  ["follows beyond it, up", 1.2, 1.23, 1.23],
  ["follows beyond it, down", 0.8, 0.78, 0.78],
])("a factor %s", (_, inForce, asked, next) => {
  expect(nextWidth(inForce, asked)).toBe(next);
  expect(nextWidth(next, asked)).toBe(next);
});
