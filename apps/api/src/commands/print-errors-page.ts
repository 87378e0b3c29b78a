import { errorsPage } from '../common/errors-page.js';

/** Prints docs/reference/errors.md, whose one source is the table of problems. */
process.stdout.write(errorsPage());
