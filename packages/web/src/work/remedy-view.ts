/** What is to be done about a suspect, as the page and the report show it. */
import { faultById, priceTable, remedyPrice, type PlacedFault } from '@ampwright/core';

export interface RemedyView {
  /** Of the suspect: `fault@part`. */
  readonly id: string;
  readonly words: string;
  readonly nature: 'fault' | 'normal';
  readonly ownerWords: string;
  readonly remedy: string;
  readonly causes: readonly string[];
  /** Other faults that go with it, in words. */
  readonly alsoCheck: readonly string[];
  readonly parts: readonly string[];
  readonly labourHours: number;
  readonly price: { readonly low: number; readonly high: number; readonly currency: string };
}

export function remedyViewOf({ id, fault }: PlacedFault): RemedyView {
  const { words, nature, ownerWords, remedy, causes, alsoCheck, buys, labourHours } = fault;
  return {
    id,
    words,
    nature,
    ownerWords,
    remedy,
    causes,
    alsoCheck: alsoCheck.map((other) => faultById(other).words),
    parts: buys.map((key) => priceTable.parts[key]?.words ?? key),
    labourHours,
    price: { ...remedyPrice(fault), currency: priceTable.currency },
  };
}
