/** Whether parts can be cut at all: all that a check asks, and loads, of the room of layouts. */
export { fitsSomehow } from './fitsSomehow.ts';
