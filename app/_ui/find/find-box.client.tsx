"use client";

import "@mantine/spotlight/styles.layer.css";
import { createSpotlight, Spotlight, useSpotlight } from "@mantine/spotlight";
import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import { AppLink } from "../app-link.client.tsx";
import { mostSearchLetters } from "./most-letters.ts";
import { type Finding, useFinding } from "./use-finding.client.ts";
import "./find-box.css";

const [store, box] = createSpotlight();
const listId = "find-list";
const optionId = (place: number) => `find-${place}`;

/** The search box over the page. Loaded when it is first asked for; closes with Escape and gives the keyboard back. */
export default function FindBox({ onClosed }: { readonly onClosed: () => void }) {
  const router = useRouter();
  const [text, setText] = useState("");
  const { selected } = useSpotlight(store);
  const finding = useFinding(text.trim());
  const things = finding.state === "found" ? finding.groups.reduce((sum, { found }) => sum + found.length, 0) : 0;
  // The text for which Enter was pressed before its answer came.
  const [entered, setEntered] = useState<string | null>(null);
  useEffect(() => box.open(), []);
  useEffect(() => {
    if (finding.state === "asking" || entered === null) return;
    setEntered(null);
    const first = finding.groups[0]?.found[0];
    if (entered !== text.trim() || first === undefined) return;
    box.close();
    router.push(first.href);
  }, [finding, entered, text, router]);
  return (
    <Spotlight.Root
      store={store}
      shortcut={null}
      query={text}
      onQueryChange={setText}
      onSpotlightClose={onClosed}
      overlayProps={{ backgroundOpacity: 0.35, blur: 0 }}
      transitionProps={{ duration: 0 }}
      radius={3}
      // A title of its own would be a second banner.
      attributes={{ content: { "aria-label": "Find unit or page" } }}
      classNames={{ content: "find-content" }}
    >
      <Spotlight.Search
        placeholder="Unit, engine, depot, model, page or word"
        aria-label="Find a unit, engine, depot, model, page or word"
        role="combobox"
        aria-expanded={things > 0}
        aria-controls={listId}
        aria-autocomplete="list"
        // The box tells nobody which line its keys have chosen.
        onKeyDown={(event) => {
          if (event.key === "Enter" && !event.nativeEvent.isComposing && finding.state === "asking")
            setEntered(text.trim());
          queueMicrotask(() => store.setState({ ...store.getState() }));
        }}
        {...(selected >= 0 && things > 0 ? { "aria-activedescendant": optionId(selected) } : {})}
        maxLength={mostSearchLetters}
        size="md"
      />
      <FoundList text={text.trim()} finding={finding} things={things} onChosen={(href) => router.push(href)} />
    </Spotlight.Root>
  );
}

function FoundList(props: {
  readonly text: string;
  readonly finding: Finding;
  /** How many things were found. */
  readonly things: number;
  readonly onChosen: (href: string) => void;
}) {
  const { text, finding, things } = props;
  const { groups } = finding;
  const isAnswer = finding.state === "found";
  const { selected } = useSpotlight(store);
  // Where the box's keys find its lines.
  useEffect(() => store.setState({ ...store.getState(), listId }), []);
  // The box marks what its arrow keys have chosen in the document itself; what was found anew begins at its first.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each answer is a list of its own
  useEffect(() => {
    const list = document.getElementById(listId);
    list?.querySelector("[data-selected]")?.removeAttribute("data-selected");
    list?.querySelector("[data-action]")?.setAttribute("data-selected", "true");
    store.setState({ ...store.getState(), selected: things > 0 ? 0 : -1 });
  }, [finding, things]);
  let place = -1;
  return (
    <>
      <p role="status" className={isAnswer && things > 0 ? "visually-hidden" : "find-says"}>
        {sayingOf(finding.state, text, things)}
      </p>
      {/* The list itself is what scrolls: a box within it would be one that no key reaches. */}
      <div id={listId} role="listbox" aria-label="Found" className="find-list">
        {groups.map(({ title, found }) => (
          // biome-ignore lint/a11y/useSemanticElements: a group of options in a list box
          <div key={title} role="group" aria-label={title} className="find-group">
            <p aria-hidden="true" className="find-group-title">
              {title}
            </p>
            {found.map((one) => {
              place += 1;
              return (
                <button
                  key={one.href}
                  type="button"
                  id={optionId(place)}
                  role="option"
                  aria-selected={isAnswer && place === selected}
                  // The box finds its lines by this, to choose them by keys; those of another text cannot be chosen.
                  {...(isAnswer ? { "data-action": true } : { disabled: true })}
                  tabIndex={-1}
                  className="find-option"
                  onMouseDown={(event) => event.preventDefault()}
                  onClick={() => {
                    box.close();
                    props.onChosen(one.href);
                  }}
                >
                  <span className="find-title">{one.title}</span>
                  <span className="find-detail">{one.detail}</span>
                </button>
              );
            })}
          </div>
        ))}
      </div>
      {text !== "" && (
        <p className="find-foot">
          <AppLink href={`/find?q=${encodeURIComponent(text)}`} onClick={() => box.close()}>
            All that is found, as a page
          </AppLink>
        </p>
      )}
    </>
  );
}

function sayingOf(state: "asking" | "found" | "failed", text: string, things: number): string {
  if (state === "asking") return "Looking …";
  if (state === "failed") return "The server cannot be reached. Try again once it runs.";
  if (things > 0) return `${things} found. Arrow keys choose, Enter opens.`;
  return `Nothing is found for “${text}”. Try fewer letters of a unit’s number, an engine’s serial, a depot or a page.`;
}
