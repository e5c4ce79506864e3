/** The dialogue and the published schemas, for programs in the same process. */
export { Interview, type InterviewOptions } from './interview.ts';
export {
  interviewInShape,
  interviewOutShape,
  type InterviewIn,
  type InterviewOut,
} from './interview-messages.ts';
export { remedyOf, shapeOfRemedy } from './remedy.ts';
export { workOf, type Work } from './work.ts';
