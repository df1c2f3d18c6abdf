import { type Workshop, workshopSchema } from "../../lib/schema/workshop.ts";

type ReadFile =
  | { readonly ok: true; readonly workshop: Workshop }
  /** Why it is not taken, without a full stop. */
  | { readonly ok: false; readonly why: string };

/** A file of prices and workshops, as `--workshop` reads it. */
export function readWorkshopFile(text: string): ReadFile {
  let written: unknown;
  try {
    written = JSON.parse(text);
  } catch {
    return { ok: false, why: "it is not JSON" };
  }
  const parsed = workshopSchema.safeParse(written);
  if (parsed.success) return { ok: true, workshop: parsed.data };
  const [issue] = parsed.error.issues;
  const where = issue === undefined || issue.path.length === 0 ? "" : `${issue.path.map(String).join(".")}: `;
  return { ok: false, why: `${where}${issue?.message.replace(/\.$/, "") ?? "not as expected"}` };
}
