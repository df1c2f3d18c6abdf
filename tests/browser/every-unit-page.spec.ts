import { withDemoFleet } from "./demo-fleet.ts";
import { test } from "./page-checks.ts";
import { lookAtFullPages } from "./page-looks.ts";

// Each page is looked at in many widths, and in two themes.
test.slow();

test.describe("with the demo fleet", () => {
  withDemoFleet();
  lookAtFullPages("of units");
});
