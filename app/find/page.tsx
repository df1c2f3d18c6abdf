import { Button, TextInput } from "@mantine/core";
import type { Metadata } from "next";
import { appStore } from "../../db/app-store.ts";
import { asksNothing } from "../../db/search.ts";
import { countWord, sentenceWords } from "../../lib/wording.ts";
import { AppLink } from "../_ui/app-link.client.tsx";
import { EmptyState } from "../_ui/empty-state.tsx";
import { findEverything } from "../_ui/find/find.ts";
import type { FoundGroup } from "../_ui/find/found.ts";
import { mostSearchLetters } from "../_ui/find/most-letters.ts";
import { Sheet } from "../_ui/sheet.tsx";
import "../_ui/find/find.css";

export const metadata: Metadata = { title: "Find" };

const mostOfAKind = 25;

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** The search of the header as a page: it needs no script, and its address can be sent to a colleague. */
export default async function FindPage({ searchParams }: Props) {
  const { q } = await searchParams;
  const typed = (typeof q === "string" ? q : "").trim().slice(0, mostSearchLetters);
  const text = asksNothing(typed) ? "" : typed;
  const groups = await findEverything(await appStore(), text, mostOfAKind);
  return (
    <div className="page">
      <h1 className="finding">{findingOf(text, groups)}</h1>
      <form action="/find" method="get" className="find-form">
        <TextInput
          name="q"
          type="search"
          label="Unit, engine, depot, model, page or word"
          defaultValue={text}
          maxLength={mostSearchLetters}
          key={text}
        />
        <Button type="submit" variant={groups.length === 0 || text === "" ? "filled" : "default"}>
          Find
        </Button>
      </form>
      {groups.length === 0 ? (
        <EmptyState says="Every word you write must stand in the number, serial, depot, model or page. Try fewer letters, or look through the Fleet.">
          <AppLink href="/" variant="button">
            All units
          </AppLink>
          <AppLink href="/import">Import a file</AppLink>
        </EmptyState>
      ) : (
        groups.map((group) => <GroupSheet key={group.title} group={group} />)
      )}
    </div>
  );
}

function findingOf(text: string, groups: readonly FoundGroup[]): string {
  if (text === "") return "Find a unit, an engine, a depot, a model, a page or a word.";
  if (groups.length === 0) return `Nothing is found for “${text}”.`;
  const things = groups.reduce((sum, { found }) => sum + found.length, 0);
  return `${things === 1 ? "One thing is" : `${sentenceWords(countWord(things))} things are`} found for “${text}”.`;
}

function GroupSheet({ group }: { readonly group: FoundGroup }) {
  return (
    <Sheet
      title={group.title}
      long
      {...(group.found.length === mostOfAKind ? { note: `The first ${mostOfAKind}; more letters find fewer.` } : {})}
    >
      <ul className="found-list">
        {group.found.map(({ title, detail, href }) => (
          <li key={href}>
            <AppLink href={href}>{title}</AppLink> <span className="second">{detail}</span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
