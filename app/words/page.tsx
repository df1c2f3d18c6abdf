import type { Metadata } from "next";
import { connection } from "next/server";
import { glossaryWords } from "../../lib/glossary.ts";
import { AppLink } from "../_ui/app-link.client.tsx";
import { Sheet } from "../_ui/sheet.tsx";
import "../_ui/find/find.css";

export const metadata: Metadata = { title: "Words of the trade" };

export default async function WordsPage() {
  await connection();
  return (
    <div className="page">
      <h1 className="finding">What the words on these pages mean, one line each.</h1>
      <p className="second">
        A word with a dotted line under it opens the same line where it stands. The maker’s manual may use others.{" "}
        <AppLink href="/find">Find a word, a unit or a page</AppLink>
      </p>
      <Sheet label="Words" long>
        <dl className="words">
          {glossaryWords.map(({ key, word, meaning }) => (
            <div key={key} id={key} className="keep-together">
              <dt>{word}</dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
      </Sheet>
    </div>
  );
}
