export { differentWidths } from './orderOfWork.ts';
export { plan } from './plan.ts';
