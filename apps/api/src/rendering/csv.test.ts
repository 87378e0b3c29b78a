import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { nineOfTwelve } from '#domain/reports/report-sample.js';
import { assembleRoundReport } from '#domain/reports/round-report.js';
import { csv } from './csv.js';
import { roundReportCsv } from './round-report-csv.js';

describe('rows as CSV', () => {
  // RFC 4180, section 2: CRLF ends a record; quotes enclose commas, quotes and line breaks; a quote is doubled.
  it('quotes as RFC 4180 says', () => {
    expect(csv([['a,b', 'c"d', 'e\r\nf', 'g', 7, null]])).toBe('"a,b","c""d","e\r\nf",g,7,\r\n');
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('keeps a spreadsheet from running %j', (text) => {
    const [cell = ''] = parse(csv([[text]]))[0] ?? [];
    expect(cell).toBe(`'${text}`);
  });

  it('leaves negative numbers numbers', () => {
    expect(csv([[-1.5]])).toBe('-1.5\r\n');
  });

  it('is read back as it was written, whatever it holds', () => {
    const harmless = fc.string({ unit: 'binary' }).filter((text) => !/^[=+\-@\t\r]/.test(text));
    fc.assert(
      fc.property(fc.array(fc.tuple(harmless, harmless), { minLength: 1 }), (rows) => {
        expect(parse(csv(rows), { record_delimiter: '\r\n' })).toEqual(rows);
      }),
    );
  });
});

describe('the shares of a report as CSV', () => {
  const report = assembleRoundReport(nineOfTwelve());

  it('has one row a share, with counts, interval and field', () => {
    const rows: Record<string, string>[] = parse(roundReportCsv(report), { columns: true });
    expect(new Set(rows.map((row) => row['claimId'])).size).toBe(rows.length);
    const passes = rows.find((row) => row['claimId'] === 'offense/all-snaps/called/pass');
    // Derived by hand in the test of the claim's words: 9 of 12, Wilson at 90 %: 51 to 90 %; the field 61 of 100.
    expect(passes).toMatchObject({ count: '9', known: '12', snaps: '15', share: '0.75', fieldShare: '0.61' });
    expect(Number(passes?.['lower'])).toBeCloseTo(0.513, 2);
    expect(Number(passes?.['upper'])).toBeCloseTo(0.895, 2);
  });

  it('neutralises a label that a spreadsheet would run', () => {
    const { offense, ...rest } = report;
    const mostUsed = offense.mostUsed.map((claim) => ({ ...claim, label: '=HYPERLINK("http://t.example")' }));
    const hostile = roundReportCsv({ ...rest, offense: { ...offense, mostUsed, bySituation: [], standsOut: [] } });
    expect(hostile).toContain(`,"'=HYPERLINK(""http://t.example"")",`);
    expect(hostile).not.toMatch(/,"?=/);
  });
});
