import { filmVtt } from './film-vtt.js';
import { filmPlace, momentAddress, type FilmEntry, type ReportFilm } from './report-film.js';
import { vttCues } from './testing/vtt-cues.js';

const FILM: ReportFilm = {
  chart: (chartId) =>
    chartId === 'filmed' ? { revision: 1, video: { url: 'https://video.example/1', offsetSeconds: 5 } } : null,
  second: ({ playNumber }) => (playNumber === 1 ? 60 : null),
};

describe('a place on film', () => {
  // W3C Media Fragments URI 1.0, section 4.2.1: #t=20 is from second 20 to the end.
  it('is the charted second moved by where the film begins in the video', () => {
    expect(filmPlace(FILM, { chartId: 'filmed', playNumber: 1 })).toEqual({
      second: 65,
      at: '1:05',
      address: 'https://video.example/1#t=65',
    });
  });

  it('is the charted second where no video is in view, and none where no second was noted', () => {
    expect(filmPlace(FILM, { chartId: 'other', playNumber: 1 })).toEqual({ second: 60, at: '1:00', address: null });
    expect(filmPlace(FILM, { chartId: 'filmed', playNumber: 2 })).toBeNull();
  });

  it.each([
    ['https://video.example/watch?v=1', 'https://video.example/watch?v=1#t=7'],
    ['https://video.example/#/watch/1', 'https://video.example/#/watch/1&t=7'],
    ['https://video.example/1#t=3', 'https://video.example/1#t=3&t=7'],
    ['https://video.example/1#', 'https://video.example/1#t=7'],
    ['javascript:alert(1)', null],
    ['not an address', null],
  ])('in %s is %s', (url, address) => {
    expect(momentAddress(url, 7)).toBe(address);
  });
});

describe('a film list as WebVTT', () => {
  const entry = (rank: number, second: number, reason: string): FilmEntry => ({
    ...{ rank, second, reason, at: '', address: null },
    ...{ gameId: 'game', game: 'Game', chartId: 'chart', playNumber: 10 + rank, claimIds: [] },
  });

  it('has one cue a pick in the order of the video, named by its rank', () => {
    const cues = vttCues(filmVtt([entry(1, 3700, 'stands out'), entry(2, 65, 'weak')]));
    expect(cues).toEqual([
      { id: '2', from: 65, to: 80, text: 'Play 12: weak' },
      { id: '1', from: 3700, to: 3715, text: 'Play 11: stands out' },
    ]);
  });

  it('is a file without cues where there is nothing to watch', () => {
    expect(vttCues(filmVtt([]))).toEqual([]);
  });

  it('lets no text end a cue, begin another or open a tag', () => {
    const hostile = filmVtt([entry(1, 1, 'a\n\n2\n00:00:01.000 --> 00:00:09.000\n<c.x>&amp;')]);
    expect(vttCues(hostile)).toEqual([
      { id: '1', from: 1, to: 16, text: 'Play 11: a 2 00:00:01.000 --&gt; 00:00:09.000 &lt;c.x&gt;&amp;amp;' },
    ]);
  });
});
