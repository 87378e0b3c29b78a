import type { ClientBase } from 'pg';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import { STARTER_TERMS } from '#domain/charting/starter-vocabulary.js';

/**
 * Adds the starter terms that the database does not have yet, by code, and brings names and synonyms of the others to
 * the list's. Nothing is ever removed or renumbered. On a fresh database the ids are 1 to N in the order of the list.
 *
 * @returns how many terms were new
 */
export async function loadStarterVocabulary(owner: ClientBase): Promise<number> {
  const terms = JSON.stringify(
    STARTER_TERMS.map((term, place) => ({ ...term, place, normalised_name: normaliseTerm(term.name) })),
  );
  const synonyms = JSON.stringify(
    STARTER_TERMS.flatMap(({ kind, code, name, synonyms: words }) =>
      [...new Set(words.map(normaliseTerm))]
        .filter((normalised) => normalised !== normaliseTerm(name))
        .map((normalised) => ({ kind, code, normalised })),
    ),
  );
  await owner.query('begin');
  try {
    const { rowCount: added } = await owner.query(
      `insert into term (kind, code, name, normalised_name, meaning, called, acted_by, lane)
       select s.kind, s.code, s.name, s.normalised_name, s.meaning, s.called, s.by, s.lane
         from jsonb_to_recordset($1) as s (place int, kind text, code text, name text, normalised_name text,
                                           meaning text, called text, by text, lane text)
        where not exists (select from term t where t.code = s.code)
        order by s.place`,
      [terms],
    );
    // Second, since a parent may come later in the list than its child.
    await owner.query(
      `update term t
          set name = s.name, normalised_name = s.normalised_name, parent_id = p.id, meaning = s.meaning,
              called = s.called, acted_by = s.by, lane = s.lane
         from jsonb_to_recordset($1) as s (code text, name text, normalised_name text, parent text, meaning text,
                                           called text, by text, lane text)
         left join term p on p.code = s.parent
        where t.code = s.code
          and (t.name, t.normalised_name, t.parent_id, t.meaning, t.called, t.acted_by, t.lane)
              is distinct from (s.name, s.normalised_name, p.id, s.meaning, s.called, s.by, s.lane)`,
      [terms],
    );
    await owner.query(
      `insert into term_synonym (term_id, kind, normalised)
       select t.id, s.kind, s.normalised
         from jsonb_to_recordset($1) as s (kind text, code text, normalised text) join term t on t.code = s.code
           on conflict (clan_id, kind, normalised) do update set term_id = excluded.term_id
                where term_synonym.term_id <> excluded.term_id`,
      [synonyms],
    );
    await owner.query('commit');
    return added ?? 0;
  } catch (error) {
    await owner.query('rollback');
    throw error;
  }
}
