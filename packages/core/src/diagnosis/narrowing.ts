/** Where an earlier healthy visit puts each unknown: middle and spread in its own standard-normal coordinate. */
export interface Narrowing {
  readonly middle: Float64Array;
  readonly spread: Float64Array;
}
