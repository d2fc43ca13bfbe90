// The library brings no types along; this is what the tests use of it.
declare module 'js-quantities' {
  class Qty {
    constructor(value: number, units: string);
    to(units: string): Qty;
    readonly scalar: number;
  }
  export default Qty;
}
