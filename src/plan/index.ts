export { plan } from './plan.ts';
