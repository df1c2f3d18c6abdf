/** Paths that are no pages: what pages are made of, what programs ask for, and files. */
const notPages = /^\/(_next|api|samples)\/|^\/(favicon\.ico|icon\.svg)$/;

/**
 * Whether somebody asked to see a page: not a part of one, not a file, not an answer for a program, and not what a
 * browser fetches ahead of a click that may never come.
 */
export function isPageRequest({ method, headers, url }: Request): boolean {
  if (method !== "GET" || notPages.test(new URL(url).pathname)) return false;
  if (/prefetch|prerender/.test(`${headers.get("sec-purpose")} ${headers.get("purpose")}`)) return false;
  // A page is asked for as a document; the next one, by the app's own links, as data. Over plain HTTP browsers do not say.
  return ["document", "empty", null].includes(headers.get("sec-fetch-dest"));
}
