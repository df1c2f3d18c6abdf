import type { Measure, ValueUnit } from "../schema/words.ts";
import { filled } from "./column-content.ts";
import type { Guess } from "./guess-columns.ts";
import type { FileField } from "./layout.ts";
import { questionWords } from "./question-words.ts";
import { holdsPairs, isReading, medianOf, numbersOf, type ReadingGuess, settleLeakages } from "./settle-leakages.ts";
import type { Question } from "./suggestion.ts";
import type { TitleSaid } from "./title-block.ts";
import { splitUnit, valueUnitOf } from "./unit-words.ts";

/** Measures and units of the reading columns, as far as headings, cells and title tell them. */

export interface ReadingsSettled {
  readonly guesses: readonly Guess[];
  readonly constants: Partial<Record<FileField, string>>;
  readonly questions: readonly Question[];
}

const ownUnits = (texts: readonly string[]) => filled(texts).map((text) => valueUnitOf(splitUnit(text).unit));

/** Only a leak-down test is read in % or as a pressure held of a supply. */
function measureByContent({ is, texts }: ReadingGuess): Measure | null {
  const cells = filled(texts);
  if (is.unit === "%") return "leak-down";
  if (cells.length === 0) return null;
  return holdsPairs(texts) || ownUnits(texts).every((unit) => unit === "%") ? "leak-down" : null;
}

/** The unit in which compressions of such a size are read; between bar and kgf/cm2 nothing tells. */
function likelyUnit(texts: readonly string[]): ValueUnit | null {
  const median = medianOf(numbersOf(texts));
  if (median === null) return null;
  return median >= 600 ? "kPa" : median >= 60 ? "psi" : null;
}

const pressureChoices = (["kPa", "bar", "psi", "kgf/cm2"] as const).map((unit) => ({ value: unit, words: unit }));
const leakChoices = [
  { value: "%", words: "% lost" },
  ...pressureChoices.map(({ value, words }) => ({ value, words: `${words} held` })),
];

const placesWhere = (guesses: readonly Guess[], test: (guess: ReadingGuess) => boolean) =>
  guesses.flatMap((guess, i) => (isReading(guess) && test(guess) ? [i] : []));
const headersAt = (guesses: readonly Guess[], places: readonly number[]) => places.map((i) => guesses[i]?.header ?? "");

/** Whether a row, the title block or a constant tells a field of the readings. */
interface ToldBeside {
  readonly test: boolean;
  readonly valueUnit: boolean;
  readonly supply: boolean;
}

/** `title`: what the title block says of the whole file. */
export function settleReadings(
  given: readonly Guess[],
  title: { readonly measure: TitleSaid<Measure>; readonly unit: TitleSaid<ValueUnit> },
  told: ToldBeside,
): ReadingsSettled {
  const questions: Question[] = [];
  const constants: Partial<Record<FileField, string>> = {};
  const guesses = given.map((guess): Guess => {
    if (!isReading(guess)) return guess;
    const measure = guess.is.measure ?? (told.test ? null : measureByContent(guess));
    // `76/80` under % is no per cent: the heading says what comes of it, and nothing in which pressure it is.
    const unit = guess.is.unit === "%" && holdsPairs(guess.texts) ? null : guess.is.unit;
    return { ...guess, is: { ...guess.is, measure, unit } };
  });

  const untold = told.test ? [] : placesWhere(guesses, ({ is }) => is.measure === null);
  if (untold.length > 0 && title.measure.sure !== null) constants.test = title.measure.sure;
  else if (untold.length > 0) {
    questions.push({
      code: "test",
      needed: true,
      words: questionWords.test(headersAt(guesses, untold)),
      columns: untold,
      choices: [
        { value: "compression-dry", words: "dry compression" },
        { value: "compression-wet", words: "wet compression" },
        { value: "leak-down", words: "leak-down" },
      ],
      likely: title.measure.likely,
    });
  }

  const measureAt = ({ is }: ReadingGuess) => is.measure ?? constants.test ?? null;
  const withoutUnit = told.valueUnit
    ? []
    : placesWhere(
        guesses,
        ({ is, texts }) =>
          is.unit === null && filled(texts).length > 0 && ownUnits(texts).some((unit) => unit === null),
      );
  const isLeak = (i: number) => measureAt(guesses[i] as ReadingGuess) === "leak-down";
  const ofPairs = withoutUnit.filter((i) => isLeak(i) && holdsPairs(guesses[i]?.texts ?? []));
  const pressures = withoutUnit.filter((i) => !isLeak(i));
  const leaks = withoutUnit.filter((i) => isLeak(i) && !ofPairs.includes(i));
  // The title's % is of the leakages, its pressure of the compressions; which pressure a leak-down was held at, it does not say.
  const byTitle =
    title.unit.sure === "%" ? leaks : title.unit.sure === null || withoutUnit.some(isLeak) ? [] : pressures;
  if (byTitle.length > 0 && byTitle.length === withoutUnit.length && title.unit.sure !== null)
    constants.value_unit = title.unit.sure;
  else if (withoutUnit.length > 0) {
    const ask = (places: readonly number[], words: typeof questionWords.valueUnit, more: Partial<Question>) => {
      if (places.length === 0) return;
      const example = filled(places.flatMap((i) => guesses[i]?.texts ?? []))[0] ?? "";
      const asked = {
        code: "value-unit",
        needed: true,
        columns: places,
        choices: pressureChoices,
        likely: null,
      } as const;
      questions.push({ ...asked, words: words(headersAt(guesses, places), example), ...more });
    };
    const ofTitle = title.unit.likely === "%" ? null : title.unit.likely;
    const likely = ofTitle ?? likelyUnit(pressures.flatMap((i) => guesses[i]?.texts ?? []));
    ask(pressures, questionWords.valueUnit, { likely });
    ask(leaks, questionWords.valueUnit, { choices: leakChoices });
    ask(ofPairs, questionWords.pairUnit, {});
  }

  const saidOtherwise = placesWhere(guesses, (guess) => {
    const { unit } = guess.is;
    const isPressure = unit !== null && unit !== "%" && measureAt(guess) !== "leak-down";
    return isPressure && title.unit.sure !== null && title.unit.sure !== "%" && unit !== title.unit.sure;
  });
  if (saidOtherwise.length > 0 && title.unit.sure !== null) {
    const words = questionWords.unitOtherwise(headersAt(guesses, saidOtherwise), title.unit.sure);
    questions.push({
      code: "value-unit",
      needed: true,
      words,
      columns: saidOtherwise,
      choices: pressureChoices,
      likely: null,
    });
  }

  const leakages = settleLeakages(guesses, constants);
  // What a column is comes before the unit that it is in.
  questions.unshift(...leakages.questions);
  const held = placesWhere(leakages.guesses, (guess) => {
    const unit = guess.is.unit;
    return measureAt(guess) === "leak-down" && unit !== null && unit !== "%" && !holdsPairs(guess.texts);
  });
  if (held.length > 0 && !told.supply) {
    questions.push({
      code: "supply",
      needed: true,
      words: questionWords.supply(headersAt(guesses, held)),
      columns: held,
      choices: [],
      likely: null,
    });
  }
  return { guesses: leakages.guesses, constants, questions };
}
