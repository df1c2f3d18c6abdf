import { expect, test } from "vitest";
import { settingsSchema } from "@/lib/schema/settings.ts";

test("the lead time is whole months, for a calendar has no half ones", () => {
  expect(settingsSchema.safeParse({ leadTimeMonths: 6 }).success).toBe(true);
  expect(settingsSchema.safeParse({ leadTimeMonths: 6.5 }).success).toBe(false);
});
