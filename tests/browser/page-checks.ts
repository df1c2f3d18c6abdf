import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { AxeBuilder } from "@axe-core/playwright";
import {
  type BrowserContext,
  test as base,
  type ConsoleMessage,
  expect,
  type Page,
  type Request,
  type Response,
  type WebError,
} from "@playwright/test";

/** What every page must fulfil, whatever else a test looks at. */

interface Watch {
  /** Watches all that the browser asks for and complains of; the test fails after its end if anything was wrong. */
  readonly watched: undefined;
}

/** As long as the slowest page may take until it listens, on a machine that has other work as well. */
const listensWithin = 15_000;

/** Whatever waits for a click, a choice or a letter; once React has taken a field over it carries its properties. */
const fieldsOfPage = "main :is(form, input:not([type=hidden]), select, textarea, button)";

const noneIsDeaf = (fields: string) =>
  [...document.querySelectorAll(fields)].every((field) =>
    Object.keys(field).some((key) => key.startsWith("__reactProps")),
  );

/** Those that nothing listens to yet, in short. */
const deafFields = (fields: string) =>
  [...document.querySelectorAll(fields)]
    .filter((field) => !Object.keys(field).some((key) => key.startsWith("__reactProps")))
    .map((field) => field.outerHTML.slice(0, 80));

/** Pages that are told so already: one page may serve several tests. */
const listening = new WeakSet<Page>();

/**
 * A page counts as come once its script listens to every field: nobody fills a form in the moment before that, and what
 * a browser is told then (a file chosen, a key pressed) nobody hears. One that never listens fails the test.
 */
function answerOnlyOnceListening(page: Page): void {
  if (listening.has(page)) return;
  listening.add(page);
  const come = page.goto.bind(page);
  page.goto = async (...given) => {
    const answer = await come(...given);
    // A file or a picture is no page, and what is not there need not be one of the app's.
    const isPage = answer?.headers()["content-type"]?.startsWith("text/html") && answer.status() !== 404;
    if (!isPage) return answer;
    await page
      .waitForFunction(noneIsDeaf, fieldsOfPage, { timeout: listensWithin, polling: 20 })
      .catch(async (error) => {
        const deaf = await page.evaluate(deafFields, fieldsOfPage);
        throw new Error(`${page.url()}: no script listens to ${deaf.join(", ")}`, { cause: error });
      });
    return answer;
  };
}

interface Kept {
  /** Contexts that go from test to test, by the options that they were made with. */
  readonly keptContexts: Map<string, BrowserContext>;
}

/** What a test may have asked a page to tell it. */
const toldToTests = ["dialog", "request", "requestfailed", "response", "console", "download", "popup"] as const;

/**
 * Nothing of one test is left to the next but an open page, and with it a process of the browser that has read the app's
 * scripts: to begin one anew takes as long as half of a test. What it showed is left, so that nothing of it goes on.
 */
async function forgetAll(context: BrowserContext, origin: string): Promise<void> {
  await context.setOffline(false);
  await context.unrouteAll({ behavior: "ignoreErrors" });
  const [page, ...others] = context.pages();
  await Promise.all(others.map((other) => other.close()));
  if (page !== undefined) {
    await page.unrouteAll({ behavior: "ignoreErrors" });
    for (const event of toldToTests) page.removeAllListeners(event);
    await page.goto(`${origin}/icon.svg`);
    await page.evaluate(() => sessionStorage.clear());
    await page.emulateMedia({ media: null, colorScheme: "light", reducedMotion: "reduce" });
    const session = await context.newCDPSession(page);
    const storageTypes = "local_storage,indexeddb,cache_storage,service_workers,file_systems";
    await session.send("Storage.clearDataForOrigin", { origin, storageTypes });
    await session.detach();
  }
  await context.clearCookies();
  await context.clearPermissions();
}

/** Playwright's test, which fails as well when a page asks another server for anything or writes an error. */
export const test = base.extend<Watch, Kept>({
  keptContexts: [
    // Playwright asks for the braces, though nothing is taken out of them.
    // biome-ignore lint/correctness/noEmptyPattern: a fixture names what it needs
    async ({}, use) => {
      const kept = new Map<string, BrowserContext>();
      await use(kept);
      for (const context of kept.values()) await context.close();
    },
    { scope: "worker" },
  ],

  context: async ({ browser, keptContexts, viewport, userAgent, javaScriptEnabled, baseURL }, use) => {
    const key = JSON.stringify([viewport, userAgent, javaScriptEnabled]);
    const context = keptContexts.get(key) ?? (await browser.newContext());
    keptContexts.set(key, context);
    await use(context);
    await forgetAll(context, baseURL ?? "");
  },

  page: async ({ context, viewport }, use) => {
    const page = context.pages()[0] ?? (await context.newPage());
    if (viewport !== null) await page.setViewportSize(viewport);
    await use(page);
  },

  watched: [
    async ({ context, baseURL, javaScriptEnabled }, use) => {
      const elsewhere: string[] = [];
      const errors: { readonly text: string; readonly url: string }[] = [];
      const unknownPages = new Set<string>();
      const onRequest = (request: Request) => {
        const { protocol, origin } = new URL(request.url());
        if (origin !== baseURL && protocol !== "data:" && protocol !== "blob:") elsewhere.push(request.url());
      };
      const onResponse = (response: Response) => {
        if (response.status() === 404 && response.request().isNavigationRequest()) unknownPages.add(response.url());
      };
      const onConsole = (message: ConsoleMessage) => {
        if (message.type() === "error") errors.push({ text: message.text(), url: message.location().url });
      };
      const onError = (error: WebError) => errors.push({ text: String(error.error()), url: error.page()?.url() ?? "" });
      context.on("request", onRequest);
      context.on("response", onResponse);
      context.on("console", onConsole);
      context.on("weberror", onError);
      // Nothing ever listens where script is switched off.
      if (javaScriptEnabled !== false) {
        for (const page of context.pages()) answerOnlyOnceListening(page);
        context.on("page", answerOnlyOnceListening);
      }
      await use(undefined);
      context.off("request", onRequest);
      context.off("response", onResponse);
      context.off("console", onConsole);
      context.off("weberror", onError);
      context.off("page", answerOnlyOnceListening);
      expect(elsewhere, "requests that left the server's own origin").toEqual([]);
      // Chromium itself writes one line for a page whose answer is 404, as that of an unknown unit must be.
      // And one for each request while a test has taken the network away, and for a sheet that the server refuses.
      const own = errors.filter(
        ({ text, url }) =>
          !(unknownPages.has(url) && text.startsWith("Failed to load resource")) &&
          !text.endsWith("net::ERR_INTERNET_DISCONNECTED") &&
          !(url.endsWith("/api/test-sheets") && text.includes("422")),
      );
      expect(own, "errors in the browser's console").toEqual([]);
    },
    { auto: true },
  ],
});

export const finding = (page: Page) => page.getByRole("heading", { level: 1 });

/** Gives the name that changes are kept with, as a viewer does on the Import page. */
export async function giveName(page: Page): Promise<void> {
  await page.goto("/import");
  await page.locator("main").getByLabel("Your name").fill("R. Ames");
  await page.locator("main").getByRole("button", { name: "Keep name" }).click();
  await expect(page.getByText("or drop them here")).toBeVisible();
}

/** A record is made as soon as somebody looks at it: long for a test, and never longer than this. */
const madeWithin = { timeout: 85_000 };

/** Opens the track record of the fleet that is in the store now, and waits until it is made: the page shows it by itself. */
export async function openRecord(page: Page, address = "/record"): Promise<void> {
  await page.goto(address);
  await expect(finding(page)).toContainText("Ranges meant to hold 80 in 100 held", madeWithin);
  await expect(page.getByText(/the record is (being )?made anew/)).toHaveCount(0, madeWithin);
}

/** Opens the plan of the fleet that is in the store now, and waits until it is made: the page shows it by itself. */
export async function openPlan(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await expect(finding(page)).toContainText("booked", madeWithin);
  await expect(page.getByText(/It is made anew (in a few seconds|once)/)).toHaveCount(0, madeWithin);
}

/** Opens a page of the budget of the fleet that is in the store now, and waits until that is drawn: the page shows it by itself. */
export async function openBudget(page: Page, address = "/budget", says: string | RegExp = "will most likely cost") {
  await page.goto(address);
  await expect(finding(page)).toContainText(says, madeWithin);
  await expect(page.getByText(/the budget is (being )?drawn anew/)).toHaveCount(0, madeWithin);
}

/** Milliseconds between two looks at what a page draws within a frame or two. */
const soon = [20, 50, 100, 200];

/** Each new width is drawn anew, which takes longer than most of what is looked at there. */
export const setWidth = (page: Page, width: number) => page.setViewportSize({ width, height: 900 });

/** The rules as they come with the checker, in their short form: a page reads them in a third of the time. */
const rulesSource = readFileSync(
  createRequire(createRequire(import.meta.url).resolve("@axe-core/playwright")).resolve("axe-core/axe.min.js"),
  "utf8",
);
/** The checker brings the rules to the page before each look, twice; where they are, this is brought instead. */
const nothing = "0";

/** Of what the checker gives, what a failure tells. */
interface Violation {
  readonly id: string;
  readonly impact?: string | null | undefined;
  readonly nodes: readonly {
    readonly target: readonly unknown[];
    readonly any: readonly { readonly message: string }[];
  }[];
}

/**
 * The contrast of texts, which takes several times as long as all other rules together. Of texts that stand alike in
 * elements alike, by their tags and classes and by all that colours them, the first and the last are measured: rows of a
 * table do not differ in it.
 */
async function contrastViolations(page: Page): Promise<readonly Violation[]> {
  return page.evaluate(async () => {
    const numbers = new Map<string, number>();
    const kinds = new Map<Element, number>();
    const kindOf = (element: Element | null): number => {
      if (element === null) return -1;
      const known = kinds.get(element);
      if (known !== undefined) return known;
      const style = getComputedStyle(element);
      const { color, backgroundColor, backgroundImage, opacity, fontSize, fontWeight, textShadow, filter } = style;
      const looks = [color, backgroundColor, backgroundImage, opacity, fontSize, fontWeight, textShadow, filter];
      const state = element.matches(":disabled, [aria-disabled=true], [inert], [aria-hidden=true]");
      const place = [kindOf(element.parentElement), element.localName, element.getAttribute("class"), state];
      const key = [...place, ...looks].join("|");
      const kind = numbers.get(key) ?? numbers.size;
      numbers.set(key, kind);
      kinds.set(element, kind);
      return kind;
    };
    const first = new Map<number, Element>();
    const last = new Map<number, Element>();
    for (const element of document.body.querySelectorAll("*")) {
      const holdsText =
        element.matches("input, select, textarea") ||
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.nodeValue?.trim());
      if (!holdsText || !element.checkVisibility({ visibilityProperty: true })) continue;
      const kind = kindOf(element);
      if (!first.has(kind)) first.set(kind, element);
      last.set(kind, element);
    }
    interface Checker {
      run(context: object, options: object): Promise<{ readonly violations: readonly Violation[] }>;
    }
    const { axe } = window as unknown as { readonly axe: Checker };
    const include = [...new Set([...first.values(), ...last.values()])];
    return (await axe.run({ include }, { runOnly: ["color-contrast"], resultTypes: ["violations"] })).violations;
  });
}

/** No axe rule of any impact is broken by the page as it is drawn now. */
export async function expectAccessible(page: Page): Promise<void> {
  // While a page is asked for anew its title is away for a moment.
  await expect(page).toHaveTitle(/Borecast/);
  // What is measured must have been painted in the theme and width of now.
  await page.evaluate(() => new Promise((painted) => requestAnimationFrame(() => requestAnimationFrame(painted))));
  if ((await page.evaluate("typeof axe")) === "undefined") await page.evaluate(rulesSource);
  // No page has frames, so no second page need be opened to put the results of several together.
  const axe = new AxeBuilder({ page, axeSource: nothing }).setLegacyMode(true);
  const { violations } = await axe
    .options({ resultTypes: ["violations"], rules: { "color-contrast": { enabled: false } } })
    .analyze();
  const found = [...violations, ...(await contrastViolations(page))].map(({ id, impact, nodes }) => [
    id,
    impact,
    nodes.map(({ target, any }) => [target.join(" "), any[0]?.message ?? ""]),
  ]);
  expect(found, `${page.url()}, ${page.viewportSize()?.width} px`).toEqual([]);
}

export interface Screen {
  readonly width: number;
  readonly colorScheme: "light" | "dark";
}
export const phoneInTheLight: Screen = { width: 390, colorScheme: "light" };
export const deskInTheDark: Screen = { width: 1440, colorScheme: "dark" };

/** Nor as a screen draws it. Leaves the page there. */
export async function expectAccessibleOn(page: Page, { width, colorScheme }: Screen): Promise<void> {
  await setWidth(page, width);
  await page.emulateMedia({ colorScheme });
  await expect(page.locator("html")).toHaveAttribute("data-mantine-color-scheme", colorScheme);
  await expectAccessible(page);
}

/** The page is never wider than the window: a phone's and a small desk's, or those of other widths. */
export async function expectToFit(page: Page, widths: readonly number[] = [390, 1080]): Promise<void> {
  const before = page.viewportSize();
  for (const width of widths) await expectToFitAt(page, width);
  if (before !== null) await page.setViewportSize(before);
}

/** Nor than a window of one width. Leaves the page there. */
export async function expectToFitAt(page: Page, width: number): Promise<void> {
  await setWidth(page, width);
  // A chart follows its new width only after the page was laid out.
  const beyond = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  const says = `${page.url()} at ${width} px: pixels beyond the window`;
  await expect.poll(beyond, { message: says, intervals: soon }).toBeLessThanOrEqual(0);
}

/** The first key leads past the frame, and what has the keyboard is seen to have it. */
export async function expectKeyboard(page: Page): Promise<void> {
  const skip = page.getByRole("link", { name: "Skip to the page" });
  await page.keyboard.press("Tab");
  await expect(skip, page.url()).toBeFocused();
  expect((await skip.boundingBox())?.width, "the skip link shows once it has the keyboard").toBeGreaterThan(60);
  await page.keyboard.press("Enter");
  await expect(page.locator("main")).toBeFocused();
  await page.keyboard.press("Tab");
  const looksFocused = () =>
    page.evaluate(() => {
      const { activeElement } = document;
      if (!(activeElement instanceof HTMLElement) || activeElement === document.body) return "nothing has the keyboard";
      // A box that is hidden hands its outline to its label.
      const seen = activeElement.closest("label") ?? activeElement;
      const look = () => {
        const { outlineStyle, outlineWidth, outlineColor, borderColor, boxShadow } = getComputedStyle(seen);
        return [outlineStyle, outlineWidth, outlineColor, borderColor, boxShadow].join();
      };
      const focused = look();
      activeElement.blur();
      return focused === look() ? `${activeElement.outerHTML.slice(0, 80)} looks the same` : "seen";
    });
  expect(await looksFocused(), page.url()).toBe("seen");
}

/** Nothing glides or blinks for who asked for stillness, as all these tests do. */
export async function expectStill(page: Page): Promise<void> {
  const moving = () =>
    page.evaluate(() =>
      [...document.querySelectorAll("*")].flatMap((element) => {
        const { transitionDuration, animationDuration, animationName } = getComputedStyle(element);
        const seconds = (text: string) => Math.max(...text.split(",").map((part) => Number.parseFloat(part)));
        const lasts =
          seconds(transitionDuration) > 0.02 || (animationName !== "none" && seconds(animationDuration) > 0.02);
        return lasts ? [`${element.tagName}.${element.getAttribute("class") ?? ""}`] : [];
      }),
    );
  expect(await moving(), page.url()).toEqual([]);
}

/** On paper there is the finding and the foot with its date, without the frame, and nothing beyond the edge of A4. Leaves the page there. */
export async function expectPrintable(page: Page): Promise<void> {
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  // 210 mm less the margins, at 96 dots to the inch.
  await setWidth(page, 700);
  await expect(page.getByRole("banner")).toBeHidden();
  await expect(page.getByText(/^As of /).last()).toBeVisible();
  const beyond = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  const says = `${page.url()} on paper: pixels beyond its edge`;
  await expect.poll(beyond, { message: says, intervals: soon }).toBeLessThanOrEqual(0);
  // Paper is white whatever the screen's theme.
  const background = () => page.locator("body").evaluate((body) => getComputedStyle(body).backgroundColor);
  await expect.poll(background, { message: page.url(), intervals: soon }).toBe("rgb(255, 255, 255)");
}
