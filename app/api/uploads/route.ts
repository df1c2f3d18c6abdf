import { answer, refusal } from "../_http/answers.ts";
import { beginUpload, uploadStatus, uploadWords } from "../_http/uploads.ts";
import { writing } from "../_http/writing.ts";

/** Begins an upload: `{ "upload": id }`, to which files are then sent one by one. */
export const POST = (request: Request) =>
  writing(request, async ({ act }) => {
    const upload = await beginUpload(act.now.getTime());
    return upload === null
      ? refusal(uploadStatus["too-many-uploads"], uploadWords["too-many-uploads"])
      : answer({ upload }, 201);
  });
