import type { z } from "zod";
import { StoreError } from "../../../db/store-error.ts";
import { piecesOf } from "../../../lib/intake/text-blocks.ts";

/** What the API answers. An error is always `{ "error": "A sentence." }`; nothing is ever cached. */

const headers = { "cache-control": "no-store" } as const;

export const answer = (value: unknown, status = 200): Response => Response.json(value, { status, headers });

export const refusal = (status: number, error: string): Response => Response.json({ error }, { status, headers });

/** The same to a person who asked for a file in the browser: the sentence alone, as text. */
export const plainRefusal = (status: number, sentence: string): Response =>
  new Response(`${sentence}\n`, { status, headers: { ...headers, "content-type": "text/plain; charset=utf-8" } });

/** The answer of `work`; a failure becomes a sentence, and the server's log keeps what was not foreseen. */
export async function answered(work: () => Promise<Response>): Promise<Response> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof StoreError) return refusal(503, error.message);
    console.error(error);
    return refusal(
      500,
      "Something went wrong that Borecast did not foresee; nothing was half done. The server's log says more.",
    );
  }
}

export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly response: Response };

/** What the API takes as JSON are a few words; files come in as uploads. */
const mostJsonBytes = 65_536;

/** The text of a body; null: it is longer than any that we take, and was not read to its end. */
async function boundedText(request: Request): Promise<string | null> {
  const decoder = new TextDecoder();
  let text = "";
  let bytes = 0;
  for await (const piece of request.body === null ? [] : piecesOf(request.body)) {
    bytes += piece.length;
    if (bytes > mostJsonBytes) return null;
    text += typeof piece === "string" ? piece : decoder.decode(piece, { stream: true });
  }
  return text + decoder.decode();
}

/** The JSON body of a request; an empty one counts as `{}`. */
export async function jsonBody<T>(request: Request, schema: z.ZodType<T>): Promise<Parsed<T>> {
  let given: unknown;
  try {
    const text = await boundedText(request);
    if (text === null) return { ok: false, response: refusal(413, "The body of the request is longer than 64 KB.") };
    given = text.trim() === "" ? {} : JSON.parse(text);
  } catch {
    return { ok: false, response: refusal(400, "The body of the request is not JSON.") };
  }
  return parsed(schema, given);
}

/** The fields after the `?` of the address, each once. */
export const queryFields = <T>(request: Request, schema: z.ZodType<T>): Parsed<T> =>
  parsed(schema, Object.fromEntries(new URL(request.url).searchParams));

function parsed<T>(schema: z.ZodType<T>, given: unknown): Parsed<T> {
  const result = schema.safeParse(given);
  if (result.success) return { ok: true, value: result.data };
  const issue = result.error.issues[0];
  const field = issue === undefined || issue.path.length === 0 ? "" : `${issue.path.join(".")}: `;
  return { ok: false, response: refusal(400, `The request is not understood. ${field}${issue?.message ?? ""}`.trim()) };
}
