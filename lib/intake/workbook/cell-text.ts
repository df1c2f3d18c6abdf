import type { NumberFormat } from "./number-format.ts";

/** Workbooks begin to count days on 1 January 1900 or 1904. */
export type DaySystem = 1900 | 1904;

const secondsADay = 86_400;
const msADay = 1000 * secondsADay;
/** 31 December 9999, the last day that spreadsheets know. */
const lastSerial = 2_958_465;

/**
 * A number of a cell as people see it, in the spelling of the contract: a date as an ISO date (with the time of day where
 * the format shows one and there is one), a share as `12%`, else the number with a point and the letters that the format
 * puts around it (`V-104`, `175 psi`). Digits beyond the fifteenth, which spreadsheets do not keep, are left off.
 */
export function numberText(value: number, format: NumberFormat, days: DaySystem): string {
  switch (format.kind) {
    case "plain":
      return plainText(value);
    case "percent":
      return `${plainText(value * 100)}%`;
    case "lettered":
      return letteredText(value, format);
    case "date":
      return dateText(value, format.time, days) ?? plainText(value);
    case "time":
      return value >= 1 ? (dateText(value, true, days) ?? plainText(value)) : timeText(secondsOf(value));
    case "duration":
      return value < 0 ? plainText(value) : spanText(secondsOf(value));
  }
}

const plainText = (value: number) => String(Number(value.toPrecision(15)));

function letteredText(value: number, { before, after, digits }: Extract<NumberFormat, { kind: "lettered" }>): string {
  const [whole = "", fraction] = plainText(Math.abs(value)).split(".");
  const text = fraction === undefined ? whole.padStart(digits, "0") : `${whole.padStart(digits, "0")}.${fraction}`;
  return `${value < 0 ? "-" : ""}${before}${text}${after}`;
}

const secondsOf = (value: number) => Math.round(value * secondsADay);
const two = (figure: number) => String(figure).padStart(2, "0");

function spanText(seconds: number): string {
  const minutes = `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}`;
  return seconds % 60 === 0 ? minutes : `${minutes}:${two(seconds % 60)}`;
}

const timeText = (seconds: number) => spanText(seconds % secondsADay).replace(/^\d:/, "0$&");

/**
 * null: the number is no day. The calendar from 1900 counts a 29 February 1900 that never was (day 60): days before it
 * lie one further on.
 */
function dateText(value: number, withTime: boolean, days: DaySystem): string | null {
  const seconds = secondsOf(value);
  const day = Math.floor(seconds / secondsADay);
  if (value < 0 || day > lastSerial || (days === 1900 && (day === 0 || day === 60))) return null;
  const epoch = days === 1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, day < 60 ? 31 : 30);
  const date = new Date(epoch + day * msADay).toISOString().slice(0, 10);
  const time = seconds - day * secondsADay;
  return withTime && time > 0 ? `${date} ${timeText(time)}` : date;
}
