import { expect } from "@playwright/test";
import { emptyPage, pages } from "../pages.ts";
import {
  deskInTheDark,
  expectAccessibleOn,
  expectKeyboard,
  expectPrintable,
  expectStill,
  expectToFitAt,
  finding,
  openBudget,
  openPlan,
  openRecord,
  phoneInTheLight,
  type Screen,
  setWidth,
  test,
} from "./page-checks.ts";

/** What is looked at on every page, whatever it shows. Their files are several, so that they can be looked at side by side. */

const emptyPages = pages.flatMap(({ empty }) => empty);
const fullPages = [...pages.flatMap(({ demo }) => demo), emptyPage];

const screens = [phoneInTheLight, deskInTheDark] as const;

/**
 * A page's first state is looked at on each screen. Its further states share the frame, the styles and most of what is
 * drawn with it: of two that follow each other one is looked at on a phone in the light, the other on a desk in the dark.
 */
const furtherStates: ReadonlyMap<unknown, Screen> = new Map(
  pages.flatMap(({ demo }) => demo.slice(1)).map((state, place) => [state, screens[place % 2 === 0 ? 0 : 1]]),
);

/** One of each page: what all states of a page share is looked at there. */
const firstOfEach: ReadonlySet<unknown> = new Set([
  ...pages.flatMap(({ demo, empty }) => demo[0] ?? empty[0] ?? []),
  emptyPage,
]);

const allWidths = [390, 768, 1080, 1300, 1920];
/** The narrowest of each arrangement: what is wider than the window is so there first. */
const furtherWidths = [390, 768, 1080];

interface Looks {
  /** Where no rule of accessibility is broken. */
  readonly screens: readonly Screen[];
  /** Where nothing is wider than the window, beside those of the screens. */
  readonly widths: readonly number[];
}

/** Each width is gone through once, from the narrowest on, and what leaves the page in another state comes last. */
const lookAt = (page: { readonly address: string; readonly says: string }, { screens, widths }: Looks) => {
  const { address, says } = page;
  const alsoByKeys = firstOfEach.has(page) ? ", is worked by keys and goes on paper" : "";
  const all = [...new Set([...widths, ...screens.map(({ width }) => width)])].sort((a, b) => a - b);
  test(`${address} fits every screen and breaks no rule of accessibility${alsoByKeys}`, async ({ page }) => {
    await setWidth(page, all[0] ?? phoneInTheLight.width);
    // Record, plan and budget are made once somebody looks at them.
    if (address.startsWith("/record") && says === "held") await openRecord(page, address);
    else if (address.startsWith("/plan") && says === "booked") await openPlan(page, address);
    else if (address.startsWith("/budget") && says !== "nothing to budget") await openBudget(page, address, says);
    else await page.goto(address);
    await expect(finding(page)).toContainText(says);
    for (const width of all) {
      await expectToFitAt(page, width);
      for (const screen of screens) if (screen.width === width) await expectAccessibleOn(page, screen);
    }
    if (alsoByKeys !== "") {
      await expectKeyboard(page);
      await expectStill(page);
      await expectPrintable(page);
    }
  });
};

/** Every page of an empty store, on one screen. */
export function lookAtEmptyPages(): void {
  const screen: Screen = { width: 1300, colorScheme: "light" };
  for (const page of emptyPages) lookAt(page, { screens: [screen], widths: allWidths });
}

/** The pages of the demo fleet that are of units, or those that are of none. */
export function lookAtFullPages(which: "of units" | "others"): void {
  const isOfUnits = ({ address }: { readonly address: string }) => address.startsWith("/units/");
  for (const page of fullPages.filter((one) => isOfUnits(one) === (which === "of units"))) {
    const screen = furtherStates.get(page);
    lookAt(page, screen === undefined ? { screens, widths: allWidths } : { screens: [screen], widths: furtherWidths });
  }
}
