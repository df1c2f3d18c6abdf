import { appStore } from "../../../../db/app-store.ts";
import { photoWithBytes } from "../../../../db/photos.ts";
import { photoEndings } from "../../../../lib/schema/photo.ts";
import { answered, refusal } from "../../_http/answers.ts";

/** A photo of a repair that stands, as the image that its first bytes said it is and as nothing else. */
export const GET = (_request: Request, { params }: { readonly params: Promise<{ readonly photo: string }> }) =>
  answered(async () => {
    const { photo } = await params;
    const found = /^\d{1,15}$/.test(photo) ? await photoWithBytes(await appStore(), Number(photo)) : null;
    if (found === null) return refusal(404, "There is no such photo.");
    return new Response(new Uint8Array(found.bytes), {
      headers: {
        "content-type": found.type,
        // The name that somebody gave it is nowhere in the answer.
        "content-disposition": `inline; filename="repair-${found.date}-${found.id}.${photoEndings[found.type]}"`,
        "content-security-policy": "default-src 'none'; sandbox",
        "x-content-type-options": "nosniff",
        // Undone or taken away, it is gone at the next look.
        "cache-control": "private, no-cache",
      },
    });
  });
