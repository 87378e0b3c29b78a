import { printed } from '../../common/printed.js';
import { ApiError } from '../../common/problems.js';

export type ImportFormat = 'csv' | 'json lines';

const FORMATS: Readonly<Record<string, ImportFormat>> = {
  'text/csv': 'csv',
  'application/x-ndjson': 'json lines',
  'application/jsonl': 'json lines',
};

/** The format of a body from its Content-Type; parameters other than a charset of UTF-8 are ignored. */
export function importFormat(contentType: string | undefined): ImportFormat {
  const [type = '', ...parameters] = (contentType ?? '').toLowerCase().split(';');
  const format = FORMATS[type.trim()];
  const charset = parameters.map((parameter) => /^\s*charset="?([^"\s]+)/.exec(parameter)?.[1]).find(Boolean);
  if (format === undefined || (charset !== undefined && charset !== 'utf-8')) {
    const expected = `${Object.keys(FORMATS).join(' or ')}, in UTF-8`;
    throw new ApiError('request.unsupported_type', `send the file as ${expected}`, {
      errors: [{ field: 'Content-Type', found: printed(contentType), expected }],
    });
  }
  return format;
}
