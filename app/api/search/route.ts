import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { findEverything } from "../../_ui/find/find.ts";
import { mostSearchLetters } from "../../_ui/find/most-letters.ts";
import { answer, answered, queryFields } from "../_http/answers.ts";

const fields = z.object({ q: z.string().max(mostSearchLetters).default("") });

const mostOfAKind = 6;

/** What the header's search box shows for a text: a few of each kind. */
export const GET = (request: Request) =>
  answered(async () => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    return answer({ groups: await findEverything(await appStore(), asked.value.q, mostOfAKind) });
  });
