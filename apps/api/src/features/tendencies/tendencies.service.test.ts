import { starterVocabulary } from '#domain/charting/vocabulary.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { ChartsService } from '../charts/charts.service.js';
import type { TermsService } from '../terms/terms.service.js';
import { TendenciesService, type Reader } from './tendencies.service.js';

const READER: Reader = { vocabulary: starterVocabulary(), archive: '1', asOf: null };
const asker = (name: string): ClanDatabase => ({ clanId: 'one clan', keyId: name }) as unknown as ClanDatabase;

/** An archive without charts, whose reading fails for one asker as soon as somebody else waits for it. */
function archiveThatFailsFor(leaving: string): { readonly archive: TendenciesService; readonly leave: () => void } {
  let leave = (): void => undefined;
  const left = new Promise<void>((resolve) => {
    leave = resolve;
  });
  let asked = 0;
  const charts = {
    ofArchive: () => Promise.resolve([]),
    batches: async ({ keyId }: ClanDatabase) => {
      asked += 1;
      // The first is for the field's models, which every asker here has.
      if (keyId !== leaving || asked === 1) return [];
      await left;
      throw new Error('whoever asked has left');
    },
  } as unknown as ChartsService;
  const terms = { canonicalIds: () => Promise.resolve((term: number) => term) } as unknown as TermsService;
  return { archive: new TendenciesService(charts, terms), leave };
}

it('an archive that is gathered for somebody who leaves is gathered again for those who wait for it', async () => {
  const { archive, leave } = archiveThatFailsFor('leaves');
  const first = archive.archive(asker('leaves'), READER);
  // It has begun once the field is there.
  const gone = expect(first).rejects.toThrow('has left');
  await new Promise(setImmediate);
  const waiting = [archive.archive(asker('stays'), READER), archive.archive(asker('stays too'), READER)];
  await new Promise(setImmediate);
  leave();
  await gone;
  for (const { facts } of await Promise.all(waiting)) expect(facts.plays.count).toBe(0);
});
