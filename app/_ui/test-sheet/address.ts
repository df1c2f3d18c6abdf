import type { Measure } from "../../../lib/schema/words.ts";
import { depotAddress } from "../depots/address.ts";
import { unitAddress } from "../unit-address.ts";

/** Where a test of a unit is entered. */
export const testAddress = (unit: string): string => `${unitAddress(unit)}/test`;

/** What a test that was sent says, by the import that it is kept as. */
export const sentTestAddress = (unit: string, importId: string): string =>
  `${testAddress(unit)}?sent=${encodeURIComponent(importId)}`;

/** The sheet of a unit for paper; of one kind of test, or of all that it is judged on. */
export const paperAddress = (unit: string, test?: Measure): string =>
  `${testAddress(unit)}/paper${test === undefined ? "" : `?test=${test}`}`;

/** The sheets for paper of a depot's units that are due, within so many weeks. */
export const depotSheetsAddress = (depot: string, weeks = 0): string =>
  `${depotAddress(depot)}/sheets${weeks === 0 ? "" : `?weeks=${weeks}`}`;
