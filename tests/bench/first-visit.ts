import { gunzipSync } from "node:zlib";
import type { Answer } from "./server.ts";

/** What a first visit to a page is sent, in bytes as they were sent: compressed. */
export interface FirstVisit {
  readonly htmlBytes: number;
  /** All scripts and style sheets that the page names. */
  readonly scriptBytes: number;
  readonly styleBytes: number;
}

/** Asks for a page, and for every script and style sheet that it names. Throws where one of these is not there. */
export async function firstVisit(ask: (address: string) => Promise<Answer>, address: string): Promise<FirstVisit> {
  const page = await ask(address);
  const named = namedIn(textOf(page));
  const sum = async (ending: string) => {
    let bytes = 0;
    for (const file of named) {
      if (!file.endsWith(ending)) continue;
      const answer = await ask(file);
      if (answer.status !== 200) throw new Error(`${file}, named by ${address}, answers ${answer.status}`);
      bytes += answer.sentBytes;
    }
    if (bytes === 0) throw new Error(`${address} names no file that ends in ${ending}`);
    return bytes;
  };
  return { htmlBytes: page.sentBytes, scriptBytes: await sum(".js"), styleBytes: await sum(".css") };
}

const textOf = ({ body, encoding }: Answer): string => (encoding === "gzip" ? gunzipSync(body) : body).toString("utf8");

/** What a browser of today fetches for a page: scripts for older ones are `nomodule`. */
function namedIn(html: string): Set<string> {
  const tags = html.match(/<(?:script|link)\b[^>]*>/g) ?? [];
  const wanted = tags.filter((tag) => !/\bnomodule\b/i.test(tag));
  return new Set(wanted.flatMap((tag) => /(?:src|href)="(\/_next\/[^"?]+)/.exec(tag)?.[1] ?? []));
}
