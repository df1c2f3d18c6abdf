import { causes, repairScopes } from "../../../lib/schema/words.ts";

/** A swap has a form of its own. */
export const scopesToRecord = repairScopes.filter((scope) => scope !== "engine-swap");

/** What a strip-down may show; that a test was not set up right is no finding in an engine. */
export const findable = causes.filter((cause) => cause !== "test-set-up");

/** A figure as a form prints it: with a point, and with all its digits. */
export const printed = (value: number): string => String(value);
