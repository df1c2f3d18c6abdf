import { expect, test } from "vitest";
import { posterior } from "@/lib/cause/bayes.ts";
import { tableFor } from "@/lib/cause/table.ts";

test.each([Number.NaN, Number.POSITIVE_INFINITY, -1])("a strength of %d is a programmer's mistake", (strength) => {
  expect(() => posterior([{ id: "all-low", strength, slots: {}, renewed: 0 }], tableFor({}))).toThrow("strength");
});
