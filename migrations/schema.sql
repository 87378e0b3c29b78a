-- The schema as the migrations leave it, printed from the catalogs. Written by a command, never by hand.

-- Schemas

schema app: roundbook_owner CREATE, roundbook_owner USAGE, roundbook_service USAGE
schema public: pg_database_owner CREATE, pg_database_owner USAGE, public USAGE, roundbook_service USAGE

-- Tables and columns

table app.person (owner roundbook_owner), row level security forced
  id uuid not null
  sign_in_name text
  salt bytea
  memory_kib integer
  passes integer
  lanes integer
  verifier bytea
  created_at timestamp with time zone not null default now()
table app.person_identity (owner roundbook_owner), row level security forced
  proof_hash bytea not null
  person_id uuid not null
  created_at timestamp with time zone not null default now()
table app.person_session (owner roundbook_owner), row level security forced
  id uuid not null
  person_id uuid not null
  token_hash bytea not null
  clan_id uuid
  member_id uuid
  user_agent text
  created_at timestamp with time zone not null default now()
  last_used_at timestamp with time zone not null default now()
  expires_at timestamp with time zone not null
table app.seal_key (owner roundbook_owner), row level security forced
  only_one boolean not null default true
  inner_pad bytea not null
  outer_pad bytea not null
table public.api_key (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  name text not null
  prefix text not null
  key_hash bytea
  rights text[] not null
  person_scope_id integer
  created_at timestamp with time zone not null default now()
  expires_at timestamp with time zone
  revoked_at timestamp with time zone
  last_used_at timestamp with time zone
  role text
  person_id uuid
  made_by uuid
table public.audit_entry (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  at timestamp with time zone not null default now()
  actor_key_id uuid not null
  action text not null
  subject_kind text not null
  subject_id uuid
  details jsonb not null default '{}'::jsonb
table public.chart (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  game_id uuid not null
  reference text not null
  kind text not null default 'charted'::text
  charted_by text
  charted_at timestamp with time zone
  film_scope jsonb not null default '{"downs": null, "fields": null, "offense": null, "quarters": null}'::jsonb
  film_scope_rank smallint not null default 0
  revision integer not null default 1
  plays integer not null default 0
  content_hash bytea
  created_at timestamp with time zone not null default now()
  last_removed_number integer not null default 0
table public.chart_pack (owner roundbook_owner), row level security forced
  clan_id uuid not null
  chart_id uuid not null
  scope_id integer not null
  format smallint not null
  revision integer not null
  plays integer not null
  bytes bytea not null storage e
table public.clan (owner roundbook_owner), row level security forced
  id uuid not null
  name text not null
  created_at timestamp with time zone not null default now()
  feed_sequence bigint not null default 0
table public.coaching_point (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  about text not null
  menu_call_id uuid
  call_family integer
  concept integer
  formation integer
  front integer
  coverage integer
  pressure integer
  player_id uuid
  chart_id uuid
  play_number integer
  text text not null
  revision integer not null default 1
  written_by uuid not null
  written_at timestamp with time zone not null default now()
table public.coaching_point_version (owner roundbook_owner), row level security forced
  clan_id uuid not null
  coaching_point_id uuid not null
  revision integer not null
  scope_id integer not null
  text text not null
  written_by uuid not null
  written_at timestamp with time zone not null
table public.contest (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  linked_contest_id uuid
table public.entrant (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  event_id uuid not null
  player_id uuid not null
  seed smallint
  roster_notes text
  unit_grades jsonb not null default '{}'::jsonb
table public.event (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  reference text not null
  name text not null
  starts_on date
  ends_on date
  rules_version text
  status text not null default 'planned'::text
  structure text
  source_id uuid
  created_at timestamp with time zone not null default now()
  grade_scale text[]
table public.feed_entry (owner roundbook_owner), row level security forced
  clan_id uuid not null
  sequence bigint not null
  scope_id integer not null
  kind text not null
  event_id uuid not null
  match_ids uuid[] not null
  told_in xid8 not null default pg_current_xact_id()
  told_at timestamp with time zone not null default now()
table public.game (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  contest_id uuid not null
  reference text not null
  event_id uuid
  match_id uuid
  game_number smallint not null default 1
  round integer
  home_player_id uuid not null
  away_player_id uuid not null
  played_at timestamp with time zone
  importance text not null
  rules_version text
  quarter_minutes smallint
  settings jsonb not null default '{}'::jsonb
  home_squad text
  away_squad text
  coin_toss text
  home_score smallint
  away_score smallint
  ending text not null default 'completed'::text
  created_at timestamp with time zone not null default now()
table public.game_video (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  game_id uuid not null
  kind text not null
  url text not null
  offset_seconds integer not null default 0
table public.idempotency_key (owner roundbook_owner), row level security forced
  clan_id uuid not null
  key text not null
  request_hash bytea not null
  status smallint
  response jsonb
  created_at timestamp with time zone not null default now()
table public.invitation (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  role text not null
  note text
  prefix text not null
  token_hash bytea not null
  made_by uuid not null
  created_at timestamp with time zone not null default now()
  expires_at timestamp with time zone not null
  accepted_at timestamp with time zone
  accepted_by uuid
table public.match (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  event_id uuid not null
  round integer not null
  "position" integer not null
  home_entrant_id uuid
  away_entrant_id uuid
  winner_entrant_id uuid
  best_of smallint not null default 1
  home_wins smallint
  away_wins smallint
  status text not null default 'open'::text
  scheduled_at timestamp with time zone
  stage text not null default 'main'::text
  home_source jsonb
  away_source jsonb
  decider boolean not null default false
table public.match_up_override (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  player_id uuid not null
  opponent_player_id uuid not null
  win_probability double precision not null
  reason text
table public.menu_call (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  side text not null
  name text not null
  personnel integer
  formation integer
  concept integer
  front integer
  coverage integer
  pressure integer
  rehearsed boolean not null default false
  reachable_by_check boolean not null default false
table public.own_call (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  game_id uuid not null
  order_in_game integer not null
  side text not null
  menu_call_id uuid
  call_family integer
  concept integer
  formation integer
  front integer
  coverage integer
  pressure integer
  note text
table public.play (owner roundbook_owner), row level security forced
  clan_id uuid not null
  chart_id uuid not null
  play_number integer not null
  order_in_game integer not null
  scope_id integer not null
  game_id uuid not null
  offense_player_id uuid not null
  defense_player_id uuid not null
  play_type text not null
  quarter smallint
  clock_seconds smallint
  clock_running text
  offense_timeouts smallint
  defense_timeouts smallint
  score_difference smallint
  down smallint
  distance smallint
  yards_to_goal smallint
  hash text
  drive smallint
  tempo integer
  offensive_personnel integer
  defensive_personnel integer
  formation integer
  strength text
  backfield integer
  motion integer
  motion_by text
  front integer
  alignment_adjustments integer[]
  shell integer
  box_count smallint
  pre_snap_adjustments integer[]
  manual_defender_start integer
  line_up_second smallint
  snap_second smallint
  called text
  call_family integer
  play_fake text
  run_pass_option text
  run_pass_option_branch text
  run_pass_option_tag integer
  concept integer
  designed_gap integer
  designed_side text
  coverage integer
  rushers smallint
  pressure integer
  pressure_path integer
  pressure_side integer
  pressure_source integer
  pressure_shown text
  manual_defender_action integer
  off_design text
  actual_gap integer
  actual_side text
  target integer
  target_number smallint
  target_depth integer
  target_zone integer
  unblocked_rusher text
  block_defeated text
  passer_pressured text
  snap_result integer
  led_to integer[]
  yards_gained smallint
  foul_side text
  foul integer
  foul_yards smallint
  foul_answer text
  foul_timing text
  replayed text
  kick_length smallint
  return_yards smallint
  fake text
  known_by jsonb
  adjustment_details jsonb
  note text
table public.player (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  handle text not null
  normalised_handle text not null
  linked_player_id uuid
  link_certain boolean not null default true
  source_id uuid
  created_at timestamp with time zone not null default now()
table public.player_alias (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  player_id uuid not null
  alias text not null
  normalised_alias text not null
table public.reconciliation (owner roundbook_owner), row level security forced
  clan_id uuid not null
  chart_id uuid not null
  scope_id integer not null
  last_play_number integer not null
  plays jsonb not null
table public.round_report (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  scope_id integer not null
  event_id uuid
  round integer
  player_id uuid
  opponent_player_id uuid not null
  created_at timestamp with time zone not null default now()
  settings jsonb not null
  seed bigint not null
  code_version text not null
  inputs jsonb not null
  body jsonb not null
table public.scope (owner roundbook_owner), row level security forced
  id integer not null generated always as identity
  clan_id uuid not null
  kind text not null
  revision bigint not null default 0
  created_at timestamp with time zone not null default now()
  root_id uuid
table public.scope_reader (owner roundbook_owner), row level security forced
  scope_id integer not null
  clan_id uuid
  may_reshare boolean not null default false
table public.share_link (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  report_id uuid not null
  token_hash bytea not null
  prefix text not null
  made_by uuid not null
  created_at timestamp with time zone not null default now()
  expires_at timestamp with time zone not null
  revoked_at timestamp with time zone
table public.sheet_mapping (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  name text not null
  fingerprint bytea not null
  body jsonb not null
  changed_at timestamp with time zone not null default now()
table public.term (owner roundbook_owner), row level security forced
  id integer not null generated always as identity
  clan_id uuid
  kind text not null
  code text
  name text not null
  normalised_name text not null
  parent_id integer
  starter_id integer
  meaning text
  called text
  acted_by text
  lane text
  retired_at timestamp with time zone
  merged_into_id integer
table public.term_synonym (owner roundbook_owner), row level security forced
  clan_id uuid
  term_id integer not null
  kind text not null
  normalised text not null
table public.webhook (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  made_by uuid not null
  url text not null
  source_clan_id uuid not null
  event_id uuid
  secret bytea not null
  secret_since timestamp with time zone not null default now()
  former_secret bytea
  created_at timestamp with time zone not null default now()
  ended_at timestamp with time zone
  ended_because text
  free_at timestamp with time zone not null default '-infinity'::timestamp with time zone
  lease uuid
table public.webhook_delivery (owner roundbook_owner), row level security forced
  clan_id uuid not null
  id uuid not null
  webhook_id uuid not null
  source_clan_id uuid
  event_id uuid
  kind text not null
  body text not null
  state text not null default 'waiting'::text
  attempts integer not null default 0
  queued_at timestamp with time zone not null default now()
  due_at timestamp with time zone not null default now()
  attempted_at timestamp with time zone
  last_status integer
  last_problem text

-- Constraints

app.person person_passphrase_check CHECK (num_nonnulls(sign_in_name, salt, memory_kib, passes, lanes, verifier) = ANY (ARRAY[0, 6]))
app.person person_pkey PRIMARY KEY (id)
app.person person_sign_in_name_check CHECK (length(sign_in_name) >= 1 AND length(sign_in_name) <= 80)
app.person person_sign_in_name_key UNIQUE (sign_in_name)
app.person person_verifier_check CHECK (length(verifier) = 32 AND length(salt) >= 16)
app.person_identity person_identity_person_id_fkey FOREIGN KEY (person_id) REFERENCES app.person(id) ON DELETE CASCADE
app.person_identity person_identity_person_id_key UNIQUE (person_id)
app.person_identity person_identity_pkey PRIMARY KEY (proof_hash)
app.person_identity person_identity_proof_hash_check CHECK (length(proof_hash) = 32)
app.person_session person_session_member_id_check CHECK ((clan_id IS NULL) = (member_id IS NULL))
app.person_session person_session_member_id_fkey FOREIGN KEY (clan_id, member_id) REFERENCES api_key(clan_id, id) ON DELETE SET NULL (clan_id, member_id)
app.person_session person_session_person_id_fkey FOREIGN KEY (person_id) REFERENCES app.person(id) ON DELETE CASCADE
app.person_session person_session_pkey PRIMARY KEY (id)
app.person_session person_session_token_hash_check CHECK (length(token_hash) = 32)
app.person_session person_session_token_hash_key UNIQUE (token_hash)
app.seal_key seal_key_only_one_check CHECK (only_one)
app.seal_key seal_key_pkey PRIMARY KEY (only_one)
public.api_key api_key_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.api_key api_key_clan_id_person_id_key UNIQUE (clan_id, person_id)
public.api_key api_key_key_hash_check CHECK (length(key_hash) = 32)
public.api_key api_key_key_hash_key UNIQUE (key_hash)
public.api_key api_key_kind_check CHECK ((role IS NULL) = (key_hash IS NOT NULL) AND (role IS NULL OR rights = app.rights_of_role(role)) AND (person_id IS NULL OR role IS NOT NULL))
public.api_key api_key_made_by_fkey FOREIGN KEY (clan_id, made_by) REFERENCES api_key(clan_id, id)
public.api_key api_key_name_check CHECK (length(name) >= 1 AND length(name) <= 80)
public.api_key api_key_person_id_fkey FOREIGN KEY (person_id) REFERENCES app.person(id) ON DELETE SET NULL
public.api_key api_key_person_scope_id_fkey FOREIGN KEY (clan_id, person_scope_id) REFERENCES scope(clan_id, id)
public.api_key api_key_pkey PRIMARY KEY (clan_id, id)
public.api_key api_key_rights_check CHECK (cardinality(rights) > 0 AND rights <@ ARRAY['profiles'::text, 'read'::text, 'write'::text, 'manage'::text])
public.api_key api_key_role_check CHECK (role = ANY (ARRAY['owner'::text, 'analyst'::text, 'reader'::text]))
public.audit_entry audit_entry_actor_key_id_fkey FOREIGN KEY (clan_id, actor_key_id) REFERENCES api_key(clan_id, id)
public.audit_entry audit_entry_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.audit_entry audit_entry_pkey PRIMARY KEY (clan_id, id)
public.chart chart_clan_id_game_id_reference_key UNIQUE (clan_id, game_id, reference)
public.chart chart_clan_id_id_game_id_scope_id_key UNIQUE (clan_id, id, game_id, scope_id)
public.chart chart_clan_id_id_scope_id_key UNIQUE (clan_id, id, scope_id)
public.chart chart_content_hash_check CHECK (length(content_hash) = 32)
public.chart chart_film_scope_check CHECK (jsonb_typeof(film_scope) = 'object'::text AND film_scope_rank >= 0)
public.chart chart_game_id_fkey FOREIGN KEY (clan_id, game_id, scope_id) REFERENCES game(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.chart chart_kind_check CHECK (kind = ANY (ARRAY['charted'::text, 'reconciled'::text, 'own call log'::text]))
public.chart chart_last_removed_number_check CHECK (last_removed_number >= 0)
public.chart chart_pkey PRIMARY KEY (clan_id, id)
public.chart chart_revision_check CHECK (revision >= 1 AND plays >= 0)
public.chart_pack chart_pack_chart_id_fkey FOREIGN KEY (clan_id, chart_id, scope_id) REFERENCES chart(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.chart_pack chart_pack_pkey PRIMARY KEY (clan_id, chart_id)
public.chart_pack chart_pack_revision_check CHECK (format >= 1 AND revision >= 1 AND plays >= 0)
public.clan clan_name_check CHECK (length(name) >= 1 AND length(name) <= 80)
public.clan clan_pkey PRIMARY KEY (id)
public.coaching_point coaching_point_about_check CHECK (
CASE about
    WHEN 'call'::text THEN num_nonnulls(menu_call_id, call_family, concept, formation) > 0 AND num_nonnulls(front, coverage, pressure, player_id, chart_id) = 0
    WHEN 'answer'::text THEN num_nonnulls(front, coverage, pressure) > 0 AND num_nonnulls(player_id, chart_id) = 0
    WHEN 'opponent'::text THEN player_id IS NOT NULL AND num_nonnulls(menu_call_id, call_family, concept, formation, front, coverage, pressure, chart_id) = 0
    WHEN 'play'::text THEN chart_id IS NOT NULL AND num_nonnulls(menu_call_id, call_family, concept, formation, front, coverage, pressure, player_id) = 0
    ELSE false
END)
public.coaching_point coaching_point_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.coaching_point coaching_point_clan_id_id_scope_id_key UNIQUE (clan_id, id, scope_id)
public.coaching_point coaching_point_menu_call_id_fkey FOREIGN KEY (clan_id, menu_call_id) REFERENCES menu_call(clan_id, id) ON DELETE CASCADE
public.coaching_point coaching_point_pkey PRIMARY KEY (clan_id, id)
public.coaching_point coaching_point_play_number_check CHECK ((play_number IS NULL) = (chart_id IS NULL))
public.coaching_point coaching_point_player_id_fkey FOREIGN KEY (clan_id, player_id) REFERENCES player(clan_id, id) ON DELETE CASCADE
public.coaching_point coaching_point_revision_check CHECK (revision >= 1)
public.coaching_point coaching_point_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.coaching_point coaching_point_text_check CHECK (length(text) >= 1 AND length(text) <= 500)
public.coaching_point coaching_point_written_by_fkey FOREIGN KEY (clan_id, written_by) REFERENCES api_key(clan_id, id)
public.coaching_point_version coaching_point_version_coaching_point_id_fkey FOREIGN KEY (clan_id, coaching_point_id, scope_id) REFERENCES coaching_point(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.coaching_point_version coaching_point_version_pkey PRIMARY KEY (clan_id, coaching_point_id, revision)
public.coaching_point_version coaching_point_version_written_by_fkey FOREIGN KEY (clan_id, written_by) REFERENCES api_key(clan_id, id)
public.contest contest_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.contest contest_linked_contest_id_check CHECK (linked_contest_id <> id)
public.contest contest_pkey PRIMARY KEY (clan_id, id)
public.contest contest_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.entrant entrant_clan_id_event_id_id_key UNIQUE (clan_id, event_id, id)
public.entrant entrant_clan_id_event_id_player_id_key UNIQUE (clan_id, event_id, player_id)
public.entrant entrant_event_id_fkey FOREIGN KEY (clan_id, event_id, scope_id) REFERENCES event(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.entrant entrant_pkey PRIMARY KEY (clan_id, id)
public.entrant entrant_player_id_fkey FOREIGN KEY (clan_id, player_id) REFERENCES player(clan_id, id)
public.entrant entrant_seed_check CHECK (seed >= 1)
public.entrant entrant_unit_grades_check CHECK (jsonb_typeof(unit_grades) = 'object'::text)
public.event event_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.event event_clan_id_id_scope_id_key UNIQUE (clan_id, id, scope_id)
public.event event_clan_id_reference_key UNIQUE (clan_id, reference)
public.event event_dates_check CHECK (ends_on >= starts_on)
public.event event_grade_scale_check CHECK (cardinality(grade_scale) >= 2 AND cardinality(grade_scale) <= 20)
public.event event_name_check CHECK (length(name) >= 1 AND length(name) <= 200)
public.event event_pkey PRIMARY KEY (clan_id, id)
public.event event_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.event event_status_check CHECK (status = ANY (ARRAY['planned'::text, 'running'::text, 'finished'::text]))
public.feed_entry feed_entry_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.feed_entry feed_entry_clan_id_told_in_event_id_key UNIQUE (clan_id, told_in, event_id)
public.feed_entry feed_entry_kind_check CHECK (kind = 'bracket.changed'::text)
public.feed_entry feed_entry_pkey PRIMARY KEY (clan_id, sequence)
public.feed_entry feed_entry_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id) ON DELETE CASCADE
public.feed_entry feed_entry_sequence_check CHECK (sequence >= 1)
public.feed_entry feed_entry_told TRIGGER DEFERRABLE INITIALLY DEFERRED
public.game game_away_player_id_check CHECK (away_player_id <> home_player_id)
public.game game_away_player_id_fkey FOREIGN KEY (clan_id, away_player_id) REFERENCES player(clan_id, id)
public.game game_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.game game_clan_id_id_scope_id_key UNIQUE (clan_id, id, scope_id)
public.game game_clan_id_reference_key UNIQUE (clan_id, reference)
public.game game_contest_id_fkey FOREIGN KEY (clan_id, contest_id) REFERENCES contest(clan_id, id)
public.game game_ending_check CHECK (ending = ANY (ARRAY['completed'::text, 'conceded'::text, 'disconnected'::text]))
public.game game_event_id_fkey FOREIGN KEY (clan_id, event_id) REFERENCES event(clan_id, id)
public.game game_home_player_id_fkey FOREIGN KEY (clan_id, home_player_id) REFERENCES player(clan_id, id)
public.game game_importance_check CHECK (importance = ANY (ARRAY['scrimmage'::text, 'group'::text, 'elimination'::text]))
public.game game_match_id_check CHECK (match_id IS NULL OR event_id IS NOT NULL)
public.game game_match_id_fkey FOREIGN KEY (clan_id, event_id, match_id) REFERENCES match(clan_id, event_id, id) ON DELETE SET NULL (match_id)
public.game game_pkey PRIMARY KEY (clan_id, id)
public.game game_quarter_minutes_check CHECK (quarter_minutes >= 1 AND quarter_minutes <= 15)
public.game game_round_check CHECK (round >= 1 AND game_number >= 1)
public.game game_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.game game_score_check CHECK (home_score >= 0 AND away_score >= 0)
public.game_video game_video_game_id_fkey FOREIGN KEY (clan_id, game_id, scope_id) REFERENCES game(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.game_video game_video_kind_check CHECK (kind = ANY (ARRAY['own view'::text, 'opponent view'::text, 'neutral'::text, 'highlights'::text]))
public.game_video game_video_pkey PRIMARY KEY (clan_id, id)
public.game_video game_video_url_check CHECK (url ~ '^https?://'::text AND length(url) <= 2000)
public.idempotency_key idempotency_key_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.idempotency_key idempotency_key_key_check CHECK (length(key) >= 1 AND length(key) <= 255)
public.idempotency_key idempotency_key_pkey PRIMARY KEY (clan_id, key)
public.idempotency_key idempotency_key_status_check CHECK (status >= 100 AND status <= 599)
public.invitation invitation_accepted_by_fkey FOREIGN KEY (clan_id, accepted_by) REFERENCES api_key(clan_id, id)
public.invitation invitation_accepted_check CHECK ((accepted_at IS NULL) = (accepted_by IS NULL))
public.invitation invitation_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.invitation invitation_made_by_fkey FOREIGN KEY (clan_id, made_by) REFERENCES api_key(clan_id, id)
public.invitation invitation_note_check CHECK (length(note) >= 1 AND length(note) <= 80)
public.invitation invitation_pkey PRIMARY KEY (clan_id, id)
public.invitation invitation_role_check CHECK (role = ANY (ARRAY['owner'::text, 'analyst'::text, 'reader'::text]))
public.invitation invitation_token_hash_check CHECK (length(token_hash) = 32)
public.invitation invitation_token_hash_key UNIQUE (token_hash)
public.match match_added TRIGGER DEFERRABLE INITIALLY DEFERRED
public.match match_away_entrant_id_check CHECK (away_entrant_id <> home_entrant_id)
public.match match_away_entrant_id_fkey FOREIGN KEY (clan_id, event_id, away_entrant_id) REFERENCES entrant(clan_id, event_id, id)
public.match match_changed TRIGGER DEFERRABLE INITIALLY DEFERRED
public.match match_clan_id_event_id_id_key UNIQUE (clan_id, event_id, id)
public.match match_clan_id_event_id_stage_round_position_key UNIQUE (clan_id, event_id, stage, round, "position")
public.match match_event_id_fkey FOREIGN KEY (clan_id, event_id, scope_id) REFERENCES event(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.match match_home_entrant_id_fkey FOREIGN KEY (clan_id, event_id, home_entrant_id) REFERENCES entrant(clan_id, event_id, id)
public.match match_pkey PRIMARY KEY (clan_id, id)
public.match match_round_check CHECK (round >= 1 AND "position" >= 1)
public.match match_sources_check CHECK ((home_source IS NULL OR jsonb_typeof(home_source) = 'object'::text) AND (away_source IS NULL OR jsonb_typeof(away_source) = 'object'::text))
public.match match_stage_check CHECK (stage ~ '^(main|losers|final|third place|swiss|group [1-9][0-9]{0,3})$'::text)
public.match match_status_check CHECK (status = ANY (ARRAY['open'::text, 'ready'::text, 'finished'::text, 'forfeited'::text]))
public.match match_winner_entrant_id_check CHECK (winner_entrant_id IS NULL OR NOT winner_entrant_id IS DISTINCT FROM home_entrant_id OR NOT winner_entrant_id IS DISTINCT FROM away_entrant_id)
public.match match_wins_check CHECK (best_of >= 1 AND home_wins >= 0 AND home_wins <= best_of AND away_wins >= 0 AND away_wins <= best_of)
public.match_up_override match_up_override_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.match_up_override match_up_override_clan_id_player_id_opponent_player_id_key UNIQUE (clan_id, player_id, opponent_player_id)
public.match_up_override match_up_override_opponent_player_id_check CHECK (opponent_player_id <> player_id)
public.match_up_override match_up_override_opponent_player_id_fkey FOREIGN KEY (clan_id, opponent_player_id) REFERENCES player(clan_id, id) ON DELETE CASCADE
public.match_up_override match_up_override_pkey PRIMARY KEY (clan_id, id)
public.match_up_override match_up_override_player_id_fkey FOREIGN KEY (clan_id, player_id) REFERENCES player(clan_id, id) ON DELETE CASCADE
public.match_up_override match_up_override_reason_check CHECK (length(reason) <= 500)
public.match_up_override match_up_override_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.match_up_override match_up_override_win_probability_check CHECK (win_probability > 0::double precision AND win_probability < 1::double precision)
public.menu_call menu_call_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.menu_call menu_call_clan_id_side_name_key UNIQUE (clan_id, side, name)
public.menu_call menu_call_name_check CHECK (length(name) >= 1 AND length(name) <= 80)
public.menu_call menu_call_pkey PRIMARY KEY (clan_id, id)
public.menu_call menu_call_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.menu_call menu_call_side_check CHECK (side = ANY (ARRAY['offense'::text, 'defense'::text]))
public.own_call own_call_clan_id_scope_id_game_id_order_in_game_side_key UNIQUE (clan_id, scope_id, game_id, order_in_game, side)
public.own_call own_call_game_id_fkey FOREIGN KEY (clan_id, game_id) REFERENCES game(clan_id, id) ON DELETE CASCADE
public.own_call own_call_menu_call_id_fkey FOREIGN KEY (clan_id, menu_call_id) REFERENCES menu_call(clan_id, id) ON DELETE SET NULL (menu_call_id)
public.own_call own_call_order_in_game_check CHECK (order_in_game >= 1)
public.own_call own_call_pkey PRIMARY KEY (clan_id, id)
public.own_call own_call_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.own_call own_call_side_check CHECK (side = ANY (ARRAY['offense'::text, 'defense'::text]))
public.play play_actual_side_check CHECK (actual_side = ANY (ARRAY['left'::text, 'middle'::text, 'right'::text]))
public.play play_block_defeated_check CHECK (block_defeated = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_called_check CHECK (called = ANY (ARRAY['run'::text, 'pass'::text]))
public.play play_chart_id_fkey FOREIGN KEY (clan_id, chart_id, game_id, scope_id) REFERENCES chart(clan_id, id, game_id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.play play_clock_running_check CHECK (clock_running = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_defense_player_id_check CHECK (defense_player_id <> offense_player_id)
public.play play_designed_side_check CHECK (designed_side = ANY (ARRAY['left'::text, 'middle'::text, 'right'::text]))
public.play play_down_check CHECK (down IS NULL OR (play_type <> ALL (ARRAY['kickoff'::text, 'free kick'::text, 'try kick'::text, 'two-point try'::text])))
public.play play_fake_check CHECK (fake = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_foul_answer_check CHECK (foul_answer = ANY (ARRAY['accepted'::text, 'declined'::text, 'offset'::text]))
public.play play_foul_side_check CHECK (foul_side = ANY (ARRAY['offense'::text, 'defense'::text]))
public.play play_foul_timing_check CHECK (foul_timing = ANY (ARRAY['before the snap'::text, 'after the snap'::text]))
public.play play_hash_check CHECK (hash = ANY (ARRAY['left'::text, 'middle'::text, 'right'::text]))
public.play play_motion_by_check CHECK (motion_by = ANY (ARRAY['outside'::text, 'slot'::text, 'tight end'::text, 'back'::text, 'quarterback'::text]))
public.play play_off_design_check CHECK (off_design = ANY (ARRAY['no'::text, 'forced by a set edge'::text, 'forced by penetration'::text, 'forced by an unblocked rusher'::text, 'passer flushed'::text, 'forced, cause unseen'::text, 'read by design'::text]))
public.play play_passer_pressured_check CHECK (passer_pressured = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_pkey PRIMARY KEY (clan_id, chart_id, play_number)
public.play play_play_fake_check CHECK (play_fake = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_play_number_check CHECK (play_number >= 1 AND play_number <= 65535 AND order_in_game >= 1 AND order_in_game <= 65535)
public.play play_play_type_check CHECK (play_type = ANY (ARRAY['scrimmage'::text, 'kneel'::text, 'spike'::text, 'punt'::text, 'field goal'::text, 'kickoff'::text, 'free kick'::text, 'try kick'::text, 'two-point try'::text]))
public.play play_pressure_shown_check CHECK (pressure_shown = ANY (ARRAY['shown and came'::text, 'shown and dropped'::text, 'not shown and came'::text]))
public.play play_range_check CHECK (quarter >= 1 AND quarter <= 12 AND clock_seconds >= 0 AND clock_seconds <= 900 AND offense_timeouts >= 0 AND offense_timeouts <= 3 AND defense_timeouts >= 0 AND defense_timeouts <= 3 AND score_difference >= '-127'::integer AND score_difference <= 127 AND down >= 1 AND down <= 4 AND distance >= 1 AND distance <= 99 AND yards_to_goal >= 1 AND yards_to_goal <= 99 AND drive >= 1 AND drive <= 99 AND box_count >= 0 AND box_count <= 11 AND line_up_second >= 0 AND line_up_second <= 32000 AND snap_second >= 0 AND snap_second <= 32000 AND rushers >= 0 AND rushers <= 11 AND target_number >= 0 AND target_number <= 99 AND yards_gained >= '-99'::integer AND yards_gained <= 109 AND foul_yards >= 0 AND foul_yards <= 60 AND kick_length >= 0 AND kick_length <= 109 AND return_yards >= '-99'::integer AND return_yards <= 109)
public.play play_replayed_check CHECK (replayed = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_run_pass_option_branch_check CHECK (run_pass_option_branch = ANY (ARRAY['give'::text, 'keep'::text, 'throw'::text]))
public.play play_run_pass_option_check CHECK (run_pass_option = ANY (ARRAY['no'::text, 'yes'::text]))
public.play play_strength_check CHECK (strength = ANY (ARRAY['left'::text, 'right'::text, 'balanced'::text]))
public.play play_unblocked_rusher_check CHECK (unblocked_rusher = ANY (ARRAY['no'::text, 'yes'::text]))
public.player player_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.player player_clan_id_normalised_handle_key UNIQUE (clan_id, normalised_handle)
public.player player_handle_check CHECK (length(handle) >= 1 AND length(handle) <= 80 AND normalised_handle <> ''::text)
public.player player_linked_player_id_check CHECK (linked_player_id <> id)
public.player player_pkey PRIMARY KEY (clan_id, id)
public.player player_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.player_alias player_alias_alias_check CHECK (length(alias) >= 1 AND length(alias) <= 80 AND normalised_alias <> ''::text)
public.player_alias player_alias_clan_id_normalised_alias_key UNIQUE (clan_id, normalised_alias)
public.player_alias player_alias_pkey PRIMARY KEY (clan_id, id)
public.player_alias player_alias_player_id_fkey FOREIGN KEY (clan_id, player_id) REFERENCES player(clan_id, id) ON DELETE CASCADE
public.player_alias player_alias_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.reconciliation reconciliation_chart_id_fkey FOREIGN KEY (clan_id, chart_id, scope_id) REFERENCES chart(clan_id, id, scope_id) ON UPDATE CASCADE ON DELETE CASCADE
public.reconciliation reconciliation_pkey PRIMARY KEY (clan_id, chart_id)
public.reconciliation reconciliation_plays_check CHECK (jsonb_typeof(plays) = 'array'::text AND last_play_number >= 0)
public.round_report round_report_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.round_report round_report_pkey PRIMARY KEY (clan_id, id)
public.round_report round_report_round_check CHECK (round >= 1)
public.round_report round_report_scope_id_fkey FOREIGN KEY (clan_id, scope_id) REFERENCES scope(clan_id, id)
public.scope scope_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.scope scope_clan_id_id_key UNIQUE (clan_id, id)
public.scope scope_kind_check CHECK (kind = ANY (ARRAY['private'::text, 'event'::text, 'share'::text, 'person'::text, 'joint'::text]))
public.scope scope_pkey PRIMARY KEY (id)
public.scope scope_root_id_check CHECK (root_id IS NULL OR (kind = ANY (ARRAY['event'::text, 'share'::text, 'joint'::text])))
public.scope_reader scope_reader_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id) ON DELETE CASCADE
public.scope_reader scope_reader_scope_id_clan_id_key UNIQUE NULLS NOT DISTINCT (scope_id, clan_id)
public.scope_reader scope_reader_scope_id_fkey FOREIGN KEY (scope_id) REFERENCES scope(id) ON DELETE CASCADE
public.share_link share_link_expires_at_check CHECK (expires_at > created_at)
public.share_link share_link_made_by_fkey FOREIGN KEY (clan_id, made_by) REFERENCES api_key(clan_id, id)
public.share_link share_link_pkey PRIMARY KEY (clan_id, id)
public.share_link share_link_report_id_fkey FOREIGN KEY (clan_id, report_id) REFERENCES round_report(clan_id, id) ON DELETE CASCADE
public.share_link share_link_token_hash_check CHECK (length(token_hash) = 32)
public.share_link share_link_token_hash_key UNIQUE (token_hash)
public.sheet_mapping sheet_mapping_body_check CHECK (jsonb_typeof(body) = 'object'::text)
public.sheet_mapping sheet_mapping_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.sheet_mapping sheet_mapping_clan_id_name_key UNIQUE (clan_id, name)
public.sheet_mapping sheet_mapping_fingerprint_check CHECK (length(fingerprint) = 32)
public.sheet_mapping sheet_mapping_name_check CHECK (length(name) >= 1 AND length(name) <= 80)
public.sheet_mapping sheet_mapping_pkey PRIMARY KEY (clan_id, id)
public.term term_acted_by_check CHECK (acted_by = ANY (ARRAY['offense'::text, 'defense'::text]))
public.term term_called_check CHECK (called = ANY (ARRAY['run'::text, 'pass'::text]))
public.term term_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.term term_clan_id_kind_normalised_name_key UNIQUE NULLS NOT DISTINCT (clan_id, kind, normalised_name)
public.term term_code_check CHECK ((code IS NULL) = (clan_id IS NOT NULL))
public.term term_code_key UNIQUE (code)
public.term term_lane_check CHECK (lane = ANY (ARRAY['left'::text, 'middle'::text, 'right'::text]))
public.term term_merged_into_id_check CHECK (merged_into_id IS NULL OR merged_into_id <> id AND clan_id IS NOT NULL)
public.term term_merged_into_id_fkey FOREIGN KEY (merged_into_id) REFERENCES term(id)
public.term term_name_check CHECK (length(name) >= 1 AND length(name) <= 80 AND normalised_name <> ''::text)
public.term term_parent_id_fkey FOREIGN KEY (parent_id) REFERENCES term(id)
public.term term_pkey PRIMARY KEY (id)
public.term term_starter_id_check CHECK (starter_id IS NULL OR clan_id IS NOT NULL)
public.term term_starter_id_fkey FOREIGN KEY (starter_id) REFERENCES term(id)
public.term_synonym term_synonym_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.term_synonym term_synonym_clan_id_kind_normalised_key UNIQUE NULLS NOT DISTINCT (clan_id, kind, normalised)
public.term_synonym term_synonym_normalised_check CHECK (normalised <> ''::text)
public.term_synonym term_synonym_term_id_fkey FOREIGN KEY (term_id) REFERENCES term(id) ON DELETE CASCADE
public.webhook webhook_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.webhook webhook_ended_at_check CHECK ((ended_at IS NULL) = (ended_because IS NULL))
public.webhook webhook_ended_because_check CHECK (ended_because = ANY (ARRAY['turned off'::text, 'receiver gone'::text, 'schedule used up'::text, 'maker without right'::text]))
public.webhook webhook_event_id_check CHECK (event_id IS NOT NULL OR source_clan_id = clan_id)
public.webhook webhook_made_by_fkey FOREIGN KEY (clan_id, made_by) REFERENCES api_key(clan_id, id)
public.webhook webhook_pkey PRIMARY KEY (clan_id, id)
public.webhook webhook_secret_check CHECK (length(secret) >= 24 AND length(secret) <= 64 AND length(former_secret) >= 24 AND length(former_secret) <= 64)
public.webhook webhook_url_check CHECK (length(url) >= 1 AND length(url) <= 2000)
public.webhook_delivery webhook_delivery_attempts_check CHECK (attempts >= 0)
public.webhook_delivery webhook_delivery_clan_id_fkey FOREIGN KEY (clan_id) REFERENCES clan(id)
public.webhook_delivery webhook_delivery_pkey PRIMARY KEY (clan_id, id)
public.webhook_delivery webhook_delivery_source_check CHECK ((source_clan_id IS NULL) = (event_id IS NULL))
public.webhook_delivery webhook_delivery_state_check CHECK (state = ANY (ARRAY['waiting'::text, 'delivered'::text, 'failed'::text, 'withheld'::text]))
public.webhook_delivery webhook_delivery_webhook_id_fkey FOREIGN KEY (clan_id, webhook_id) REFERENCES webhook(clan_id, id) ON DELETE CASCADE

-- Indexes

CREATE UNIQUE INDEX person_pkey ON app.person USING btree (id)
CREATE UNIQUE INDEX person_sign_in_name_key ON app.person USING btree (sign_in_name)
CREATE UNIQUE INDEX person_identity_person_id_key ON app.person_identity USING btree (person_id)
CREATE UNIQUE INDEX person_identity_pkey ON app.person_identity USING btree (proof_hash)
CREATE INDEX person_session_member_id_idx ON app.person_session USING btree (clan_id, member_id)
CREATE INDEX person_session_person_id_idx ON app.person_session USING btree (person_id)
CREATE UNIQUE INDEX person_session_pkey ON app.person_session USING btree (id)
CREATE UNIQUE INDEX person_session_token_hash_key ON app.person_session USING btree (token_hash)
CREATE UNIQUE INDEX seal_key_pkey ON app.seal_key USING btree (only_one)
CREATE UNIQUE INDEX api_key_clan_id_person_id_key ON public.api_key USING btree (clan_id, person_id)
CREATE UNIQUE INDEX api_key_key_hash_key ON public.api_key USING btree (key_hash)
CREATE INDEX api_key_made_by_idx ON public.api_key USING btree (clan_id, made_by) WHERE (made_by IS NOT NULL)
CREATE INDEX api_key_person_id_idx ON public.api_key USING btree (person_id) WHERE (person_id IS NOT NULL)
CREATE INDEX api_key_person_scope_id_idx ON public.api_key USING btree (clan_id, person_scope_id) WHERE (person_scope_id IS NOT NULL)
CREATE UNIQUE INDEX api_key_pkey ON public.api_key USING btree (clan_id, id)
CREATE INDEX audit_entry_actor_key_id_idx ON public.audit_entry USING btree (clan_id, actor_key_id)
CREATE UNIQUE INDEX audit_entry_pkey ON public.audit_entry USING btree (clan_id, id)
CREATE INDEX audit_entry_subject_id_idx ON public.audit_entry USING btree (clan_id, subject_id, at)
CREATE UNIQUE INDEX chart_clan_id_game_id_reference_key ON public.chart USING btree (clan_id, game_id, reference)
CREATE UNIQUE INDEX chart_clan_id_id_game_id_scope_id_key ON public.chart USING btree (clan_id, id, game_id, scope_id)
CREATE UNIQUE INDEX chart_clan_id_id_scope_id_key ON public.chart USING btree (clan_id, id, scope_id)
CREATE INDEX chart_game_id_idx ON public.chart USING btree (game_id)
CREATE INDEX chart_id_idx ON public.chart USING btree (id)
CREATE UNIQUE INDEX chart_pkey ON public.chart USING btree (clan_id, id)
CREATE UNIQUE INDEX chart_reconciled_key ON public.chart USING btree (clan_id, game_id) WHERE (kind = 'reconciled'::text)
CREATE INDEX chart_pack_chart_id_idx ON public.chart_pack USING btree (chart_id)
CREATE UNIQUE INDEX chart_pack_pkey ON public.chart_pack USING btree (clan_id, chart_id)
CREATE UNIQUE INDEX clan_pkey ON public.clan USING btree (id)
CREATE INDEX coaching_point_chart_id_idx ON public.coaching_point USING btree (clan_id, chart_id) WHERE (chart_id IS NOT NULL)
CREATE UNIQUE INDEX coaching_point_clan_id_id_scope_id_key ON public.coaching_point USING btree (clan_id, id, scope_id)
CREATE INDEX coaching_point_menu_call_id_idx ON public.coaching_point USING btree (clan_id, menu_call_id) WHERE (menu_call_id IS NOT NULL)
CREATE UNIQUE INDEX coaching_point_pkey ON public.coaching_point USING btree (clan_id, id)
CREATE INDEX coaching_point_player_id_idx ON public.coaching_point USING btree (clan_id, player_id) WHERE (player_id IS NOT NULL)
CREATE INDEX coaching_point_scope_id_idx ON public.coaching_point USING btree (clan_id, scope_id)
CREATE INDEX coaching_point_written_by_idx ON public.coaching_point USING btree (clan_id, written_by)
CREATE UNIQUE INDEX coaching_point_version_pkey ON public.coaching_point_version USING btree (clan_id, coaching_point_id, revision)
CREATE INDEX coaching_point_version_written_by_idx ON public.coaching_point_version USING btree (clan_id, written_by)
CREATE INDEX contest_id_idx ON public.contest USING btree (id)
CREATE INDEX contest_linked_contest_id_idx ON public.contest USING btree (linked_contest_id) WHERE (linked_contest_id IS NOT NULL)
CREATE UNIQUE INDEX contest_pkey ON public.contest USING btree (clan_id, id)
CREATE INDEX contest_scope_id_idx ON public.contest USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX entrant_clan_id_event_id_id_key ON public.entrant USING btree (clan_id, event_id, id)
CREATE UNIQUE INDEX entrant_clan_id_event_id_player_id_key ON public.entrant USING btree (clan_id, event_id, player_id)
CREATE UNIQUE INDEX entrant_pkey ON public.entrant USING btree (clan_id, id)
CREATE INDEX entrant_player_id_idx ON public.entrant USING btree (clan_id, player_id)
CREATE UNIQUE INDEX event_clan_id_id_scope_id_key ON public.event USING btree (clan_id, id, scope_id)
CREATE UNIQUE INDEX event_clan_id_reference_key ON public.event USING btree (clan_id, reference)
CREATE INDEX event_id_idx ON public.event USING btree (id)
CREATE UNIQUE INDEX event_pkey ON public.event USING btree (clan_id, id)
CREATE INDEX event_scope_id_idx ON public.event USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX feed_entry_clan_id_told_in_event_id_key ON public.feed_entry USING btree (clan_id, told_in, event_id)
CREATE INDEX feed_entry_event_id_idx ON public.feed_entry USING btree (event_id, sequence)
CREATE UNIQUE INDEX feed_entry_pkey ON public.feed_entry USING btree (clan_id, sequence)
CREATE INDEX game_away_player_id_idx ON public.game USING btree (away_player_id, scope_id)
CREATE UNIQUE INDEX game_clan_id_id_scope_id_key ON public.game USING btree (clan_id, id, scope_id)
CREATE UNIQUE INDEX game_clan_id_reference_key ON public.game USING btree (clan_id, reference)
CREATE INDEX game_contest_id_idx ON public.game USING btree (clan_id, contest_id)
CREATE INDEX game_event_id_idx ON public.game USING btree (clan_id, event_id, match_id)
CREATE INDEX game_home_player_id_idx ON public.game USING btree (home_player_id, scope_id)
CREATE INDEX game_id_idx ON public.game USING btree (id)
CREATE UNIQUE INDEX game_pkey ON public.game USING btree (clan_id, id)
CREATE INDEX game_scope_id_idx ON public.game USING btree (clan_id, scope_id)
CREATE INDEX game_video_game_id_idx ON public.game_video USING btree (clan_id, game_id, scope_id)
CREATE UNIQUE INDEX game_video_pkey ON public.game_video USING btree (clan_id, id)
CREATE INDEX idempotency_key_created_at_idx ON public.idempotency_key USING btree (clan_id, created_at)
CREATE UNIQUE INDEX idempotency_key_pkey ON public.idempotency_key USING btree (clan_id, key)
CREATE INDEX invitation_accepted_by_idx ON public.invitation USING btree (clan_id, accepted_by)
CREATE INDEX invitation_made_by_idx ON public.invitation USING btree (clan_id, made_by)
CREATE UNIQUE INDEX invitation_pkey ON public.invitation USING btree (clan_id, id)
CREATE UNIQUE INDEX invitation_token_hash_key ON public.invitation USING btree (token_hash)
CREATE INDEX match_away_entrant_id_idx ON public.match USING btree (clan_id, event_id, away_entrant_id)
CREATE UNIQUE INDEX match_clan_id_event_id_id_key ON public.match USING btree (clan_id, event_id, id)
CREATE UNIQUE INDEX match_clan_id_event_id_stage_round_position_key ON public.match USING btree (clan_id, event_id, stage, round, "position")
CREATE INDEX match_home_entrant_id_idx ON public.match USING btree (clan_id, event_id, home_entrant_id)
CREATE UNIQUE INDEX match_pkey ON public.match USING btree (clan_id, id)
CREATE UNIQUE INDEX match_up_override_clan_id_player_id_opponent_player_id_key ON public.match_up_override USING btree (clan_id, player_id, opponent_player_id)
CREATE INDEX match_up_override_opponent_player_id_idx ON public.match_up_override USING btree (clan_id, opponent_player_id)
CREATE UNIQUE INDEX match_up_override_pkey ON public.match_up_override USING btree (clan_id, id)
CREATE INDEX match_up_override_scope_id_idx ON public.match_up_override USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX menu_call_clan_id_side_name_key ON public.menu_call USING btree (clan_id, side, name)
CREATE UNIQUE INDEX menu_call_pkey ON public.menu_call USING btree (clan_id, id)
CREATE INDEX menu_call_scope_id_idx ON public.menu_call USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX own_call_clan_id_scope_id_game_id_order_in_game_side_key ON public.own_call USING btree (clan_id, scope_id, game_id, order_in_game, side)
CREATE INDEX own_call_game_id_idx ON public.own_call USING btree (clan_id, game_id)
CREATE INDEX own_call_menu_call_id_idx ON public.own_call USING btree (clan_id, menu_call_id) WHERE (menu_call_id IS NOT NULL)
CREATE UNIQUE INDEX own_call_pkey ON public.own_call USING btree (clan_id, id)
CREATE INDEX own_call_scope_id_idx ON public.own_call USING btree (clan_id, scope_id)
CREATE INDEX play_defense_player_id_idx ON public.play USING btree (defense_player_id, scope_id)
CREATE INDEX play_offense_player_id_idx ON public.play USING btree (offense_player_id, scope_id)
CREATE UNIQUE INDEX play_pkey ON public.play USING btree (clan_id, chart_id, play_number)
CREATE UNIQUE INDEX player_clan_id_normalised_handle_key ON public.player USING btree (clan_id, normalised_handle)
CREATE INDEX player_id_idx ON public.player USING btree (id)
CREATE INDEX player_linked_player_id_idx ON public.player USING btree (linked_player_id) WHERE (linked_player_id IS NOT NULL)
CREATE UNIQUE INDEX player_pkey ON public.player USING btree (clan_id, id)
CREATE INDEX player_scope_id_idx ON public.player USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX player_alias_clan_id_normalised_alias_key ON public.player_alias USING btree (clan_id, normalised_alias)
CREATE UNIQUE INDEX player_alias_pkey ON public.player_alias USING btree (clan_id, id)
CREATE INDEX player_alias_player_id_idx ON public.player_alias USING btree (clan_id, player_id)
CREATE INDEX player_alias_scope_id_idx ON public.player_alias USING btree (clan_id, scope_id)
CREATE INDEX reconciliation_chart_id_idx ON public.reconciliation USING btree (chart_id)
CREATE UNIQUE INDEX reconciliation_pkey ON public.reconciliation USING btree (clan_id, chart_id)
CREATE INDEX round_report_event_id_idx ON public.round_report USING btree (clan_id, event_id)
CREATE INDEX round_report_opponent_player_id_idx ON public.round_report USING btree (clan_id, opponent_player_id, created_at)
CREATE UNIQUE INDEX round_report_pkey ON public.round_report USING btree (clan_id, id)
CREATE INDEX round_report_scope_id_idx ON public.round_report USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX scope_clan_id_id_key ON public.scope USING btree (clan_id, id)
CREATE UNIQUE INDEX scope_clan_id_private_key ON public.scope USING btree (clan_id) WHERE (kind = 'private'::text)
CREATE UNIQUE INDEX scope_clan_id_root_id_key ON public.scope USING btree (clan_id, root_id, ((kind = 'joint'::text))) WHERE (root_id IS NOT NULL)
CREATE UNIQUE INDEX scope_pkey ON public.scope USING btree (id)
CREATE INDEX scope_reader_clan_id_idx ON public.scope_reader USING btree (clan_id, scope_id)
CREATE UNIQUE INDEX scope_reader_scope_id_clan_id_key ON public.scope_reader USING btree (scope_id, clan_id) NULLS NOT DISTINCT
CREATE INDEX share_link_made_by_idx ON public.share_link USING btree (clan_id, made_by)
CREATE UNIQUE INDEX share_link_pkey ON public.share_link USING btree (clan_id, id)
CREATE INDEX share_link_report_id_idx ON public.share_link USING btree (clan_id, report_id)
CREATE UNIQUE INDEX share_link_token_hash_key ON public.share_link USING btree (token_hash)
CREATE UNIQUE INDEX sheet_mapping_clan_id_name_key ON public.sheet_mapping USING btree (clan_id, name)
CREATE INDEX sheet_mapping_fingerprint_idx ON public.sheet_mapping USING btree (clan_id, fingerprint, changed_at)
CREATE UNIQUE INDEX sheet_mapping_pkey ON public.sheet_mapping USING btree (clan_id, id)
CREATE UNIQUE INDEX term_clan_id_kind_normalised_name_key ON public.term USING btree (clan_id, kind, normalised_name) NULLS NOT DISTINCT
CREATE UNIQUE INDEX term_code_key ON public.term USING btree (code)
CREATE INDEX term_merged_into_id_idx ON public.term USING btree (merged_into_id) WHERE (merged_into_id IS NOT NULL)
CREATE INDEX term_parent_id_idx ON public.term USING btree (parent_id)
CREATE UNIQUE INDEX term_pkey ON public.term USING btree (id)
CREATE INDEX term_starter_id_idx ON public.term USING btree (starter_id)
CREATE UNIQUE INDEX term_synonym_clan_id_kind_normalised_key ON public.term_synonym USING btree (clan_id, kind, normalised) NULLS NOT DISTINCT
CREATE INDEX term_synonym_term_id_idx ON public.term_synonym USING btree (term_id)
CREATE INDEX webhook_made_by_idx ON public.webhook USING btree (clan_id, made_by)
CREATE UNIQUE INDEX webhook_pkey ON public.webhook USING btree (clan_id, id)
CREATE INDEX webhook_source_clan_id_idx ON public.webhook USING btree (source_clan_id, event_id) WHERE (ended_at IS NULL)
CREATE INDEX webhook_delivery_due_at_idx ON public.webhook_delivery USING btree (clan_id, webhook_id, due_at) WHERE (state = 'waiting'::text)
CREATE UNIQUE INDEX webhook_delivery_pkey ON public.webhook_delivery USING btree (clan_id, id)
CREATE INDEX webhook_delivery_webhook_id_idx ON public.webhook_delivery USING btree (clan_id, webhook_id, id)

-- Sequences

public.scope_id_seq integer start 1 increment 1 from 1 to 2147483647
public.term_id_seq integer start 1 increment 1 from 1 to 2147483647

-- Triggers

CREATE TRIGGER entrant_place_player AFTER INSERT OR DELETE OR UPDATE OF player_id, scope_id ON public.entrant FOR EACH ROW EXECUTE FUNCTION app.place_player_of_entrant()
CREATE CONSTRAINT TRIGGER feed_entry_told AFTER INSERT ON public.feed_entry DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION app.queue_deliveries()
CREATE TRIGGER game_place_players AFTER INSERT OR DELETE OR UPDATE OF home_player_id, away_player_id, scope_id ON public.game FOR EACH ROW EXECUTE FUNCTION app.place_players_of_game()
CREATE TRIGGER game_players_check BEFORE UPDATE OF home_player_id, away_player_id ON public.game FOR EACH ROW EXECUTE FUNCTION app.check_players_of_game()
CREATE CONSTRAINT TRIGGER match_added AFTER INSERT ON public.match DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION app.tell_bracket_changed()
CREATE CONSTRAINT TRIGGER match_changed AFTER UPDATE ON public.match DEFERRABLE INITIALLY DEFERRED FOR EACH ROW WHEN (((((((old.home_entrant_id IS DISTINCT FROM new.home_entrant_id) OR (old.away_entrant_id IS DISTINCT FROM new.away_entrant_id)) OR (old.winner_entrant_id IS DISTINCT FROM new.winner_entrant_id)) OR (old.home_wins IS DISTINCT FROM new.home_wins)) OR (old.away_wins IS DISTINCT FROM new.away_wins)) OR (old.status IS DISTINCT FROM new.status))) EXECUTE FUNCTION app.tell_bracket_changed()
CREATE TRIGGER play_players_check_insert AFTER INSERT ON public.play REFERENCING NEW TABLE AS written FOR EACH STATEMENT EXECUTE FUNCTION app.check_players_of_plays()
CREATE TRIGGER play_players_check_update AFTER UPDATE ON public.play REFERENCING NEW TABLE AS written FOR EACH STATEMENT EXECUTE FUNCTION app.check_players_of_plays()
CREATE TRIGGER player_link_level_check BEFORE INSERT OR UPDATE OF linked_player_id ON public.player FOR EACH ROW EXECUTE FUNCTION app.check_player_link()
CREATE TRIGGER term_check BEFORE INSERT OR UPDATE ON public.term FOR EACH ROW EXECUTE FUNCTION app.check_term()
CREATE TRIGGER term_merger_check BEFORE INSERT OR UPDATE OF merged_into_id ON public.term FOR EACH ROW WHEN ((new.merged_into_id IS NOT NULL)) EXECUTE FUNCTION app.check_term_merger()
CREATE TRIGGER term_synonym_check BEFORE INSERT OR UPDATE ON public.term_synonym FOR EACH ROW EXECUTE FUNCTION app.check_term_synonym()

-- Policies

app.person person_owner for all to roundbook_owner using true with check true
app.person_identity person_identity_owner for all to roundbook_owner using true with check true
app.person_session person_session_owner for all to roundbook_owner using true with check true
app.seal_key seal_key_owner for all to roundbook_owner using true with check true
public.api_key api_key_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (made_by = ( SELECT app.key_id() AS key_id)) AND (rights <@ ( SELECT app.rights() AS rights)) AND ((person_scope_id IS NULL) OR (person_scope_id = ( SELECT app.my_scope() AS my_scope))))
public.api_key api_key_owner for all to roundbook_owner using true with check true
public.api_key api_key_select for select to roundbook_service using (clan_id = ( SELECT app.clan() AS clan))
public.api_key api_key_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (role IS NULL) AND ((made_by = ( SELECT app.key_id() AS key_id)) OR ( SELECT app.may('manage'::text) AS may))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (role IS NULL) AND ((made_by = ( SELECT app.key_id() AS key_id)) OR ( SELECT app.may('manage'::text) AS may)))
public.audit_entry audit_entry_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (actor_key_id = ( SELECT app.key_id() AS key_id)))
public.audit_entry audit_entry_owner for all to roundbook_owner using true with check true
public.audit_entry audit_entry_select for select to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.chart chart_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.chart chart_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.chart chart_owner for all to roundbook_owner using true with check true
public.chart chart_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.chart chart_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.chart_pack chart_pack_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.chart_pack chart_pack_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.chart_pack chart_pack_owner for all to roundbook_owner using true with check true
public.chart_pack chart_pack_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.chart_pack chart_pack_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.clan clan_owner for all to roundbook_owner using true with check true
public.clan clan_select for select to roundbook_service using (id = ( SELECT app.clan() AS clan))
public.clan clan_update for update to roundbook_service using (id = ( SELECT app.clan() AS clan)) with check (id = ( SELECT app.clan() AS clan))
public.coaching_point coaching_point_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.coaching_point coaching_point_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.coaching_point coaching_point_owner for all to roundbook_owner using true with check true
public.coaching_point coaching_point_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.coaching_point coaching_point_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.coaching_point_version coaching_point_version_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.coaching_point_version coaching_point_version_owner for all to roundbook_owner using true with check true
public.coaching_point_version coaching_point_version_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.contest contest_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.contest contest_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.contest contest_owner for all to roundbook_owner using true with check true
public.contest contest_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.contest contest_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.entrant entrant_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.entrant entrant_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.entrant entrant_owner for all to roundbook_owner using true with check true
public.entrant entrant_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.entrant entrant_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.event event_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.event event_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.event event_owner for all to roundbook_owner using true with check true
public.event event_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.event event_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.feed_entry feed_entry_owner for all to roundbook_owner using true with check true
public.feed_entry feed_entry_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.game game_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.game game_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.game game_owner for all to roundbook_owner using true with check true
public.game game_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.game game_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.game_video game_video_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.game_video game_video_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.game_video game_video_owner for all to roundbook_owner using true with check true
public.game_video game_video_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.game_video game_video_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.idempotency_key idempotency_key_delete for delete to roundbook_service using (clan_id = ( SELECT app.clan() AS clan))
public.idempotency_key idempotency_key_insert for insert to roundbook_service with check (clan_id = ( SELECT app.clan() AS clan))
public.idempotency_key idempotency_key_owner for all to roundbook_owner using true with check true
public.idempotency_key idempotency_key_select for select to roundbook_service using (clan_id = ( SELECT app.clan() AS clan))
public.idempotency_key idempotency_key_update for update to roundbook_service using (clan_id = ( SELECT app.clan() AS clan)) with check (clan_id = ( SELECT app.clan() AS clan))
public.invitation invitation_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.invitation invitation_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may) AND (made_by = ( SELECT app.key_id() AS key_id)) AND (accepted_at IS NULL) AND (expires_at <= (now() + '30 days'::interval)))
public.invitation invitation_owner for all to roundbook_owner using true with check true
public.invitation invitation_select for select to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.match match_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.match match_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.match match_owner for all to roundbook_owner using true with check true
public.match match_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.match match_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.match_up_override match_up_override_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.match_up_override match_up_override_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.match_up_override match_up_override_owner for all to roundbook_owner using true with check true
public.match_up_override match_up_override_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.match_up_override match_up_override_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.menu_call menu_call_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.menu_call menu_call_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.menu_call menu_call_owner for all to roundbook_owner using true with check true
public.menu_call menu_call_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.menu_call menu_call_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.own_call own_call_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.own_call own_call_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.own_call own_call_owner for all to roundbook_owner using true with check true
public.own_call own_call_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.own_call own_call_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.play play_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.play play_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.play play_owner for all to roundbook_owner using true with check true
public.play play_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.play play_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.player player_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.player player_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.player player_owner for all to roundbook_owner using true with check true
public.player player_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.player player_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.player_alias player_alias_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.player_alias player_alias_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.player_alias player_alias_owner for all to roundbook_owner using true with check true
public.player_alias player_alias_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.player_alias player_alias_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.reconciliation reconciliation_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.reconciliation reconciliation_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.reconciliation reconciliation_owner for all to roundbook_owner using true with check true
public.reconciliation reconciliation_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.reconciliation reconciliation_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[]))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.round_report round_report_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.round_report round_report_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.round_report round_report_owner for all to roundbook_owner using true with check true
public.round_report round_report_select for select to roundbook_service using (scope_id = ANY (( SELECT app.scopes() AS scopes)::integer[]))
public.scope scope_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (kind = ANY (ARRAY['share'::text, 'person'::text])))
public.scope scope_owner for all to roundbook_owner using true with check true
public.scope scope_select for select to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) OR (id = ANY (( SELECT app.scopes() AS scopes)::integer[])))
public.scope_reader scope_reader_owner for all to roundbook_owner using true with check true
public.scope_reader scope_reader_select for select to roundbook_service using ((clan_id IS NULL) OR (clan_id = ( SELECT app.clan() AS clan)) OR (scope_id = ANY (( SELECT app.own_scopes() AS own_scopes)::integer[])))
public.share_link share_link_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND (EXISTS ( SELECT
   FROM round_report r
  WHERE ((r.clan_id = share_link.clan_id) AND (r.id = share_link.report_id)))))
public.share_link share_link_owner for all to roundbook_owner using true with check true
public.share_link share_link_select for select to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (EXISTS ( SELECT
   FROM round_report r
  WHERE ((r.clan_id = share_link.clan_id) AND (r.id = share_link.report_id)))))
public.share_link share_link_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND (EXISTS ( SELECT
   FROM round_report r
  WHERE ((r.clan_id = share_link.clan_id) AND (r.id = share_link.report_id))))) with check ((clan_id = ( SELECT app.clan() AS clan)) AND (EXISTS ( SELECT
   FROM round_report r
  WHERE ((r.clan_id = share_link.clan_id) AND (r.id = share_link.report_id)))))
public.sheet_mapping sheet_mapping_delete for delete to roundbook_service using (clan_id = ( SELECT app.clan() AS clan))
public.sheet_mapping sheet_mapping_insert for insert to roundbook_service with check (clan_id = ( SELECT app.clan() AS clan))
public.sheet_mapping sheet_mapping_owner for all to roundbook_owner using true with check true
public.sheet_mapping sheet_mapping_select for select to roundbook_service using (clan_id = ( SELECT app.clan() AS clan))
public.sheet_mapping sheet_mapping_update for update to roundbook_service using (clan_id = ( SELECT app.clan() AS clan)) with check (clan_id = ( SELECT app.clan() AS clan))
public.term term_insert for insert to roundbook_service with check (clan_id = ( SELECT app.clan() AS clan))
public.term term_owner for all to roundbook_owner using true with check true
public.term term_select for select to roundbook_service using ((clan_id IS NULL) OR (clan_id = ( SELECT app.clan() AS clan)))
public.term term_update for update to roundbook_service using (clan_id = ( SELECT app.clan() AS clan)) with check (clan_id = ( SELECT app.clan() AS clan))
public.term_synonym term_synonym_delete for delete to roundbook_service using (clan_id = ( SELECT app.clan() AS clan))
public.term_synonym term_synonym_insert for insert to roundbook_service with check (clan_id = ( SELECT app.clan() AS clan))
public.term_synonym term_synonym_owner for all to roundbook_owner using true with check true
public.term_synonym term_synonym_select for select to roundbook_service using ((clan_id IS NULL) OR (clan_id = ( SELECT app.clan() AS clan)))
public.webhook webhook_delete for delete to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.webhook webhook_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may) AND (made_by = ( SELECT app.key_id() AS key_id)))
public.webhook webhook_owner for all to roundbook_owner using true with check true
public.webhook webhook_select for select to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.webhook webhook_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may)) with check ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.webhook_delivery webhook_delivery_insert for insert to roundbook_service with check ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.webhook_delivery webhook_delivery_owner for all to roundbook_owner using true with check true
public.webhook_delivery webhook_delivery_select for select to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))
public.webhook_delivery webhook_delivery_update for update to roundbook_service using ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may)) with check ((clan_id = ( SELECT app.clan() AS clan)) AND ( SELECT app.may('manage'::text) AS may))

-- Rights on tables, columns and sequences

public.api_key: roundbook_service: INSERT (clan_id, id, name, prefix, key_hash, rights, person_scope_id, expires_at, made_by), SELECT (clan_id, id, name, prefix, rights, person_scope_id, created_at, expires_at, revoked_at, last_used_at, role, made_by), UPDATE (name, expires_at, revoked_at, last_used_at)
public.audit_entry: roundbook_service: INSERT, SELECT
public.chart: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.chart_pack: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.clan: roundbook_service: SELECT, UPDATE (name)
public.coaching_point: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.coaching_point_version: roundbook_service: INSERT, SELECT
public.contest: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.entrant: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.event: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.feed_entry: roundbook_service: SELECT
public.game: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.game_video: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.idempotency_key: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.invitation: roundbook_service: DELETE, INSERT (clan_id, id, role, note, prefix, token_hash, made_by, expires_at), SELECT (clan_id, id, role, note, prefix, made_by, created_at, expires_at, accepted_at, accepted_by)
public.match: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.match_up_override: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.menu_call: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.own_call: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.play: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.player: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.player_alias: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.reconciliation: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.round_report: roundbook_service: DELETE, INSERT, SELECT
public.scope: roundbook_service: INSERT (clan_id, kind), SELECT
public.scope_reader: roundbook_service: SELECT
public.share_link: roundbook_service: INSERT (clan_id, id, report_id, token_hash, prefix, made_by, expires_at), SELECT (clan_id, id, report_id, prefix, made_by, created_at, expires_at, revoked_at), UPDATE (revoked_at)
public.sheet_mapping: roundbook_service: DELETE, INSERT, SELECT, UPDATE
public.term: roundbook_service: INSERT, SELECT, UPDATE
public.term_synonym: roundbook_service: DELETE, INSERT, SELECT
public.webhook: roundbook_service: DELETE, INSERT (clan_id, id, made_by, url, source_clan_id, event_id, secret), SELECT (clan_id, id, made_by, url, source_clan_id, event_id, secret_since, created_at, ended_at, ended_because), UPDATE (made_by, url, source_clan_id, event_id, ended_at, ended_because)
public.webhook_delivery: roundbook_service: INSERT (clan_id, id, webhook_id, kind, body), SELECT (clan_id, id, webhook_id, event_id, kind, state, attempts, queued_at, due_at, attempted_at, last_status, last_problem), UPDATE (state, attempts, due_at)

-- Functions

CREATE OR REPLACE FUNCTION app.analyze_grown_tables()
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        least_pages constant integer := 4;
        least_growth constant real := 1.1;
        grown record;
      begin
        for grown in
          select c.oid::regclass as name,
                 (select string_agg(distinct quote_ident(a.attname), ', ')
                    from pg_index i
                    join pg_attribute a on a.attrelid = c.oid and a.attnum = any(i.indkey)
                   where i.indrelid = c.oid) as columns
            from pg_class c
           where c.relnamespace = 'public'::regnamespace and c.relkind = 'r'
             and pg_relation_size(c.oid) / current_setting('block_size')::integer
                 >= greatest(least_pages, least_growth * c.relpages)
           order by c.relname
        loop
          execute format('analyze (skip_locked) %s (%s)', grown.name, grown.columns);
        end loop;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.archive_revision()
 RETURNS text
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        -- Of no link, which is not to learn when anything changes.
        perform app.entered();
        return app.revision_of(app.scopes());
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.change_passphrase(token_hash bytea, old_proof bytea, salt bytea, memory_kib integer, passes integer, lanes integer, proof bytea, new_token_hash bytea)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid := app.session_person(token_hash);
  begin
    update app.person p
       set salt = change_passphrase.salt, memory_kib = change_passphrase.memory_kib, passes = change_passphrase.passes,
           lanes = change_passphrase.lanes, verifier = sha256(proof)
     where p.id = person and p.verifier = sha256(old_proof);
    if not found then
      raise exception 'the passphrase is not right' using errcode = 'RB008';
    end if;
    delete from app.person_session s where s.person_id = person and s.token_hash <> change_passphrase.token_hash;
    update app.person_session s set token_hash = new_token_hash where s.token_hash = change_passphrase.token_hash;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.check_player_link()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        if new.linked_player_id is null then
          return new;
        end if;
        -- Locked, so that two transactions cannot link two records to each other.
        perform from public.player p
          where p.clan_id = new.clan_id and p.id = new.linked_player_id for no key update;
        if exists (select from public.player p where p.clan_id = new.clan_id
                      and (p.id = new.linked_player_id and p.linked_player_id is not null
                           or p.linked_player_id = new.id)) then
          raise exception 'a linked player cannot be linked to: links have one level'
            using errcode = 'check_violation', constraint = 'player_link_level_check';
        end if;
        return new;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.check_players_of_game()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        -- Waits for everybody who writes charts or plays of the game, whose keys hold these rows.
        perform from public.game g where g.clan_id = new.clan_id and g.id = new.id for update;
        perform from public.chart c where c.clan_id = new.clan_id and c.game_id = new.id order by c.id for update;
        if exists (
          select from public.chart c join public.play p on p.clan_id = c.clan_id and p.chart_id = c.id
           where c.clan_id = new.clan_id and c.game_id = new.id
             and not (p.offense_player_id in (new.home_player_id, new.away_player_id)
                  and p.defense_player_id in (new.home_player_id, new.away_player_id))) then
          raise exception 'the game has plays of other players'
            using errcode = 'foreign_key_violation', constraint = 'game_players_check', table = 'game';
        end if;
        return new;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.check_players_of_plays()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        if exists (
          select from (select distinct w.clan_id, w.game_id, w.offense_player_id, w.defense_player_id from written w) w
            left join public.game g on g.clan_id = w.clan_id and g.id = w.game_id
                  and w.offense_player_id in (g.home_player_id, g.away_player_id)
                  and w.defense_player_id in (g.home_player_id, g.away_player_id)
           where g.id is null) then
          raise exception 'the players of a play are the two of its game'
            using errcode = 'foreign_key_violation', constraint = 'play_players_check', table = 'play';
        end if;
        return null;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.check_term()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        target public.term;
      begin
        if tg_op = 'UPDATE' and (new.id, new.kind, new.code, new.clan_id) is distinct from (old.id, old.kind, old.code, old.clan_id) then
          raise exception 'id, kind, code and clan of a term are fixed' using errcode = 'check_violation';
        end if;
        if new.parent_id is not null then
          target := app.require_reachable_term(new.parent_id, new.clan_id, 'the parent');
        end if;
        if new.starter_id is not null then
          target := app.require_reachable_term(new.starter_id, new.clan_id, 'the starter term');
          if target.clan_id is not null or target.kind <> new.kind then
            raise exception 'a term stands for a starter term of its own kind' using errcode = 'check_violation';
          end if;
        end if;
        return new;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.check_term_merger()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        target public.term := app.require_reachable_term(new.merged_into_id, new.clan_id, 'the term it is merged into');
      begin
        if target.kind <> new.kind or target.merged_into_id is not null then
          raise exception 'a term is merged into one of its own kind that counts as itself'
            using errcode = 'check_violation', constraint = 'term_merged_into_id_check';
        end if;
        return new;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.check_term_synonym()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        target public.term := app.require_reachable_term(new.term_id, new.clan_id, 'the word''s term');
      begin
        if target.kind <> new.kind then
          raise exception 'a synonym has the kind of its term' using errcode = 'check_violation';
        end if;
        return new;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.clan()
 RETURNS uuid
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return left(app.entered(), 36)::uuid;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.clan_words(clan uuid)
 RETURNS text
 LANGUAGE plpgsql
 STABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return (select coalesce(json_agg(w order by w.id), '[]')::text
          from (select t.id, t.kind, t.code, t.name, t.parent_id as "parentId", t.starter_id as "starterId",
                       array(select s.normalised from public.term_synonym s
                              where s.term_id = t.id and s.clan_id = clan order by 1) as synonyms,
                       true as own, t.retired_at is not null as retired, t.merged_into_id as "mergedIntoId"
                  from public.term t where t.clan_id = clan
                union all
                select t.id, t.kind, t.code, t.name, t.parent_id, t.starter_id, s.words, false, false, null
                  from (select s.term_id, array_agg(s.normalised order by s.normalised) as words
                          from public.term_synonym s where s.clan_id = clan group by s.term_id) s
                  -- Not "is null", of which PostgreSQL expects few before the tables were ever analyzed.
                  join public.term t on t.id = s.term_id and t.clan_id is distinct from clan) w);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.create_clan(clan_id uuid, clan_name text)
 RETURNS integer
 LANGUAGE sql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
        insert into public.clan (id, name) values ($1, $2);
        insert into public.scope (clan_id, kind) values ($1, 'private') returning id;
      $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.delete_clan(clan_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        relation regclass;
      begin
        -- Whatever points at others goes before them: by the longest way down the foreign keys.
        for relation in
          with recursive of_clan as (
            select a.attrelid as oid from pg_attribute a join pg_class c on c.oid = a.attrelid
             where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
               and a.attname = 'clan_id' and not a.attisdropped
          ), reference as (
            select distinct k.conrelid as child, k.confrelid as parent
              from pg_constraint k
             where k.contype = 'f' and k.conrelid <> k.confrelid
               and k.conrelid in (select oid from of_clan) and k.confrelid in (select oid from of_clan)
          ), step (oid, depth) as (
            select oid, 0 from of_clan
            union
            select r.child, s.depth + 1 from step s join reference r on r.parent = s.oid where s.depth < 100
          )
          select oid::regclass from step group by oid order by max(depth) desc, oid
        loop
          execute format('delete from %s where clan_id = $1', relation) using delete_clan.clan_id;
        end loop;
        delete from public.clan c where c.id = delete_clan.clan_id;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.end_membership(clan_id uuid, member_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    mine integer;
    relation text;
  begin
    perform app.require_owner(clan_id, member_id);
    update public.api_key k set revoked_at = now()
     where k.clan_id = end_membership.clan_id and k.id = member_id and k.role is not null and k.revoked_at is null
    returning k.person_scope_id into mine;
    if not found then
      raise exception 'the clan has no such member' using errcode = 'RB004';
    end if;
    update app.person_session s set clan_id = null, member_id = null
     where s.clan_id = end_membership.clan_id and s.member_id = end_membership.member_id;
    with recursive made as (
      select k.id from public.api_key k where k.clan_id = end_membership.clan_id and k.made_by = member_id
      union select k.id from made m join public.api_key k
              on k.clan_id = end_membership.clan_id and k.made_by = m.id)
    update public.api_key k set revoked_at = now()
     where k.clan_id = end_membership.clan_id and k.id in (select id from made) and k.revoked_at is null;
    foreach relation in array array['coaching_point', 'own_call', 'menu_call', 'round_report'] loop
      execute format('delete from public.%I where clan_id = $1 and scope_id = $2', relation)
        using end_membership.clan_id, mine;
    end loop;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.end_session(token_hash bytea, session_id uuid)
 RETURNS boolean
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid := app.session_person(token_hash);
  begin
    delete from app.person_session s
     where s.person_id = person
       and case when end_session.session_id is null then s.token_hash = end_session.token_hash
                else s.id = end_session.session_id end;
    return found;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.enter(key_hash bytea, OUT clan_id uuid, OUT key_id uuid, OUT rights text[])
 RETURNS record
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        opened text;
      begin
        select o.clan_id, o.key_id, o.rights into clan_id, key_id, rights from app.opened_by(key_hash) o;
        opened := clan_id || ' ' || key_id;
        perform set_config('roundbook.clan', opened || ' ' || app.seal(opened), true);
        -- Not to be undone: PostgreSQL lets nobody back to writing inside such a transaction.
        if not rights && array['write', 'manage'] then
          perform set_config('transaction_read_only', 'on', true);
        end if;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.enter_link(token_hash bytea, OUT clan_id uuid, OUT link_id uuid, OUT report_id uuid)
 RETURNS record
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        opened text;
      begin
        select l.clan_id, l.id, l.report_id into clan_id, link_id, report_id from public.share_link l
         where l.token_hash = enter_link.token_hash and l.revoked_at is null and l.expires_at > now();
        if not found then
          raise exception 'the link is not known, has expired or was revoked' using errcode = 'RB011';
        end if;
        opened := clan_id || ' ' || link_id;
        -- Sealed as a link, so that it is worthless as an entered clan.
        perform set_config('roundbook.link', opened || ' ' || app.seal('link ' || opened), true);
        perform set_config('transaction_read_only', 'on', true);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.entered()
 RETURNS text
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        -- After a transaction that set it, the setting is '' and not null.
        entered text := nullif(current_setting('roundbook.clan', true), '');
        opened text := left(entered, 73);
      begin
        if entered is null then
          raise exception 'no clan was entered in this transaction' using errcode = 'RB001';
        end if;
        -- Only what enter() wrote has a valid seal, so what passes is well-formed too.
        if substr(entered, 75) is distinct from app.seal(opened) then
          raise exception 'the entered clan is forged or belongs to another transaction' using errcode = 'RB003';
        end if;
        return opened;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.erase_person(token_hash bytea, proof bytea, pseudonym text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        person uuid := app.session_person(token_hash);
        membership record;
        names text[];
      begin
        select array_remove(array[p.sign_in_name], null) into names from app.person p
         where p.id = person and (p.verifier is null or p.verifier = sha256(proof)) for update;
        if not found then
          raise exception 'the passphrase is not right' using errcode = 'RB008';
        end if;
        for membership in
          select k.clan_id, k.id, lower(k.name) as name, k.revoked_at is null as current
            from public.api_key k where k.person_id = person order by k.clan_id
        loop
          if membership.current then
            perform app.end_membership(membership.clan_id, membership.id);
          end if;
          -- Keys that the member named, and notes on the invitations that led here or were written by the member.
          update public.api_key k set name = 'key'
           where k.clan_id = membership.clan_id and k.made_by = membership.id;
          update public.invitation i set note = null
           where i.clan_id = membership.clan_id and membership.id in (i.accepted_by, i.made_by);
          -- Answers that are kept for requests that come again.
          delete from public.idempotency_key i
           where i.clan_id = membership.clan_id
             and exists (select from unnest(names || membership.name) n
                          where position(n in lower(i.response #>> '{}')) > 0);
          update public.api_key k set name = pseudonym, person_id = null
           where k.clan_id = membership.clan_id and k.id = membership.id;
          insert into public.audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id)
          values (membership.clan_id, app.new_id(), membership.id, 'person.erased', 'member', membership.id);
        end loop;
        -- Sessions, and who it is elsewhere, go with it.
        delete from app.person p where p.id = person;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.erase_player(player_id uuid, pseudonym text, remove_plays boolean)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        clan uuid := app.clan();
        names text[];
        contests uuid[];
        scopes integer[];
      begin
        perform app.require_right('manage');
        select array[lower(p.handle)] into names from public.player p
         where p.clan_id = clan and p.id = erase_player.player_id and p.scope_id = any (app.own_scopes()) for update;
        if not found then
          raise exception 'no player of this clan has this id' using errcode = 'RB004';
        end if;
        select names || coalesce(array_agg(lower(a.alias)), '{}') into names from public.player_alias a
         where a.clan_id = clan and a.player_id = erase_player.player_id;
        select array_agg(distinct g.scope_id) into scopes from public.game g
         where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id);

        delete from public.player_alias a where a.clan_id = clan and a.player_id = erase_player.player_id;
        delete from public.coaching_point c where c.clan_id = clan and c.player_id = erase_player.player_id;
        update public.entrant e set roster_notes = null, unit_grades = '{}'
         where e.clan_id = clan and e.player_id = erase_player.player_id;
        -- Links would tell by another record who it was.
        update public.player p
           set handle = pseudonym, normalised_handle = pseudonym, linked_player_id = null, source_id = null
         where p.clan_id = clan and p.id = erase_player.player_id;
        -- Free texts that name the player: notes lose the text, references become the id.
        update public.play y set note = null
          from public.game g
         where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id)
           and y.clan_id = clan and y.game_id = g.id
           and exists (select from unnest(names) n where position(n in lower(y.note)) > 0);
        update public.game g set reference = g.id::text
         where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id)
           and exists (select from unnest(names) n where position(n in lower(g.reference)) > 0);
        -- Answers that are kept for requests that come again.
        delete from public.idempotency_key i
         where i.clan_id = clan
           and (position(erase_player.player_id::text in i.response #>> '{}') > 0
                or exists (select from unnest(names) n where position(n in lower(i.response #>> '{}')) > 0));

        if remove_plays then
          select array_agg(g.contest_id) into contests from public.game g
           where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id);
          delete from public.game g
           where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id);
          delete from public.contest c
           where c.clan_id = clan and c.id = any (contests)
             and not exists (select from public.game g where g.clan_id = clan and g.contest_id = c.id);
          delete from public.round_report r where r.clan_id = clan and r.opponent_player_id = erase_player.player_id;
          -- In a bracket the place stays, under the pseudonym.
          delete from public.player p
           where p.clan_id = clan and p.id = erase_player.player_id
             and not exists (select from public.entrant e where e.clan_id = clan and e.player_id = p.id);
        end if;
        perform app.raise_scope_revision(scopes || (select s.id from public.scope s
                                                     where s.clan_id = clan and s.kind = 'private'));
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.follow_event(game_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    clan uuid := app.clan();
    held integer;
    of_event integer;
  begin
    perform app.require_right('manage');
    select g.scope_id, e.scope_id into held, of_event
      from public.game g join public.event e on e.clan_id = g.clan_id and e.id = g.event_id
     where g.clan_id = clan and g.id = game_id for no key update of g;
    if not found then
      raise exception 'no game of an event of this clan has this id' using errcode = 'RB004';
    end if;
    delete from public.scope_reader r using public.scope s
     where r.scope_id = s.id and s.clan_id = clan and s.root_id = game_id;
    perform app.move_game(clan, game_id, of_event);
    perform app.place_players(clan, array[g.home_player_id, g.away_player_id])
       from public.game g where g.clan_id = clan and g.id = game_id;
    perform app.raise_scope_revision(array[held, of_event]);
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.foreign_terms(ids integer[])
 RETURNS TABLE(term_id integer, starter_id integer)
 LANGUAGE plpgsql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return query
          select f.id, f.counts_as from (
            select t.id, case when m.id is null then t.starter_id when m.clan_id is null then m.id else m.starter_id end
                           as counts_as
              from public.term t left join public.term m on m.id = t.merged_into_id
             where t.id = any (ids) and t.clan_id <> app.clan()
               and t.clan_id in (select s.clan_id from public.scope s where s.id = any (app.scopes()))) f
           where f.counts_as is not null;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.hand_over(member_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    perform app.set_role(member_id, 'owner');
    perform app.set_role(app.key_id(), 'analyst');
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.hmac_sha256(key bytea, message bytea)
 RETURNS bytea
 LANGUAGE plpgsql
 IMMUTABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    padded bytea := key || decode(repeat('00', 64 - length(key)), 'hex');
    inside bytea := padded;
    outside bytea := padded;
  begin
    for at in 0..63 loop
      inside := set_byte(inside, at, get_byte(padded, at) # 54);   -- 0x36
      outside := set_byte(outside, at, get_byte(padded, at) # 92); -- 0x5c
    end loop;
    return sha256(outside || sha256(inside || message));
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.invitation_behind(token_hash bytea, OUT clan_name text, OUT role text, OUT expires_at timestamp with time zone)
 RETURNS record
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        opened public.invitation := app.open_invitation(token_hash);
      begin
        clan_name := (select c.name from public.clan c where c.id = opened.clan_id);
        role := opened.role;
        expires_at := opened.expires_at;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.is_public(scope_id integer)
 RETURNS boolean
 LANGUAGE sql
 STABLE PARALLEL RESTRICTED
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
        select exists (select from public.scope_reader r where r.scope_id = $1 and r.clan_id is null)
      $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.join_clan(token_hash bytea, person_id uuid, sign_in_name text, salt bytea, memory_kib integer, passes integer, lanes integer, proof bytea, identity_proof bytea, member_id uuid, member_name text, audit_id uuid)
 RETURNS uuid
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        if num_nonnulls(proof, identity_proof) <> 1 then
          raise exception 'one way to sign in is needed' using errcode = 'RB008';
        end if;
        perform app.make_person(person_id, sign_in_name, salt, memory_kib, passes, lanes, proof);
        if identity_proof is not null then
          insert into app.person_identity (proof_hash, person_id) values (sha256(identity_proof), person_id);
        end if;
        return app.use_invitation(token_hash, person_id, member_id, member_name, audit_id);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.join_clan_as(token_hash bytea, session_hash bytea, member_id uuid, member_name text, audit_id uuid)
 RETURNS uuid
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return app.use_invitation(token_hash, app.session_person(session_hash), member_id, member_name, audit_id);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.key_id()
 RETURNS uuid
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return right(app.entered(), 36)::uuid;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.leave_clan(token_hash bytea, clan_id uuid, audit_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid := app.session_person(token_hash);
    member uuid;
  begin
    select k.id into member from public.api_key k
     where k.person_id = person and k.clan_id = leave_clan.clan_id and k.revoked_at is null;
    if not found then
      raise exception 'this person is in no such clan' using errcode = 'RB004';
    end if;
    perform app.end_membership(leave_clan.clan_id, member);
    insert into public.audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id)
    values (leave_clan.clan_id, audit_id, member, 'member.left', 'member', member);
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.link_identity(session_hash bytea, identity_proof bytea)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        person uuid := app.session_person(session_hash);
      begin
        delete from app.person_identity i where i.person_id = person;
        insert into app.person_identity (proof_hash, person_id) values (sha256(identity_proof), person);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.make_member(clan_id uuid, member_id uuid, person_id uuid, member_name text, role text)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    mine integer;
  begin
    update public.api_key k
       set name = member_name, role = make_member.role, rights = app.rights_of_role(make_member.role), revoked_at = null
     where k.clan_id = make_member.clan_id and k.person_id = make_member.person_id and k.revoked_at is not null;
    if found then return; end if;
    if exists (select from public.api_key k
                where k.clan_id = make_member.clan_id and k.person_id = make_member.person_id) then
      raise exception 'this person is a member already' using errcode = 'RB010';
    end if;
    insert into public.scope (clan_id, kind) values (make_member.clan_id, 'person') returning id into mine;
    insert into public.api_key (clan_id, id, name, prefix, rights, role, person_id, person_scope_id)
    values (make_member.clan_id, member_id, member_name, '', app.rights_of_role(make_member.role), make_member.role,
            make_member.person_id, mine);
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.make_person(person_id uuid, sign_in_name text, salt bytea, memory_kib integer, passes integer, lanes integer, proof bytea)
 RETURNS void
 LANGUAGE sql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    insert into app.person (id, sign_in_name, salt, memory_kib, passes, lanes, verifier)
    values ($1, $2, $3, $4, $5, $6, sha256($7));
  $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.may(wanted text)
 RETURNS boolean
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        entered text := app.entered();
      begin
        return exists (select from public.api_key k where k.clan_id = left(entered, 36)::uuid
                          and k.id = right(entered, 36)::uuid and wanted = any (k.rights));
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.may_follow(clan_id uuid, source_clan_id uuid, event_id uuid)
 RETURNS boolean
 LANGUAGE sql
 STABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select $1 = $2 or exists (
      select from public.event e join public.scope_reader r on r.scope_id = e.scope_id
       where e.clan_id = $2 and e.id = $3 and (r.clan_id is null or r.clan_id = $1))
  $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.move_game(clan_id uuid, game_id uuid, to_scope integer)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    contest uuid;
  begin
    update public.game g set scope_id = to_scope
     where g.clan_id = move_game.clan_id and g.id = game_id and g.scope_id <> to_scope
    returning g.contest_id into contest;
    update public.contest c set scope_id = to_scope
     where c.clan_id = move_game.clan_id and c.id = contest
       and not exists (select from public.game o
                        where o.clan_id = move_game.clan_id and o.contest_id = contest and o.id <> game_id);
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.move_session(token_hash bytea, new_token_hash bytea, clan_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid := app.session_person(token_hash);
  begin
    update app.person_session s
       set token_hash = new_token_hash, clan_id = k.clan_id, member_id = k.id, last_used_at = now()
      from public.api_key k
     where s.token_hash = move_session.token_hash and k.person_id = person and k.clan_id = move_session.clan_id
       and k.revoked_at is null;
    if not found then
      raise exception 'this person is in no such clan' using errcode = 'RB004';
    end if;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.my_scope()
 RETURNS integer
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    entered text := app.entered();
  begin
    return (select k.person_scope_id from public.api_key k
             where k.clan_id = left(entered, 36)::uuid and k.id = right(entered, 36)::uuid);
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.new_id()
 RETURNS uuid
 LANGUAGE sql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select encode(set_bit(set_bit(overlay(uuid_send(gen_random_uuid()) placing
             substring(int8send(floor(extract(epoch from clock_timestamp()) * 1000)::bigint) from 3) from 1 for 6),
             52, 1), 53, 1), 'hex')::uuid
  $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.next_delivery()
 RETURNS timestamp with time zone
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select min(greatest(d.due_at, w.free_at))
      from public.webhook_delivery d join public.webhook w on w.clan_id = d.clan_id and w.id = d.webhook_id
     where d.state = 'waiting' and w.ended_at is null
  $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.note_use(digests bytea[], at timestamp with time zone[])
 RETURNS void
 LANGUAGE sql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    update public.api_key k set last_used_at = greatest(k.last_used_at, n.at)
      from unnest($1, $2) n (digest, at) where k.key_hash = n.digest;
    update app.person_session s set last_used_at = greatest(s.last_used_at, n.at)
      from unnest($1, $2) n (digest, at) where s.token_hash = n.digest;
  $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.open_chart(asked uuid, pack_format integer, OUT scope_id integer, OUT game_id uuid, OUT home_player_id uuid, OUT away_player_id uuid, OUT kind text, OUT play_number integer, OUT order_in_game integer, OUT charts_of_game integer, OUT plays_kept integer, OUT pack_plays integer, OUT pack bytea, OUT words text)
 RETURNS SETOF record
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        clan uuid := app.clan();
        mine integer[] := app.own_scopes();
        last_removed integer;
        chart_revision integer;
      begin
        select c.scope_id, c.game_id, g.home_player_id, g.away_player_id, c.kind, c.last_removed_number, c.revision
          into scope_id, game_id, home_player_id, away_player_id, kind, last_removed, chart_revision
          from public.chart c join public.game g on g.clan_id = c.clan_id and g.id = c.game_id
         where c.clan_id = clan and c.id = asked and c.scope_id = any (mine) and g.scope_id = any (mine)
           for no key update;
        if not found then return; end if;
        select greatest(last_removed, coalesce(max(p.play_number), 0)) + 1, coalesce(max(p.order_in_game), 0) + 1
          into play_number, order_in_game
          from public.play p where p.clan_id = clan and p.chart_id = asked;
        select count(*) into charts_of_game
          from public.chart c where c.clan_id = clan and c.game_id = open_chart.game_id;
        select coalesce(sum(c.plays), 0) into plays_kept from public.chart c where c.clan_id = clan and c.scope_id = any (mine);
        select k.plays, k.bytes into pack_plays, pack
          from public.chart_pack k
         where k.clan_id = clan and k.chart_id = asked and k.format = pack_format and k.revision = chart_revision;
        words := app.clan_words(clan);
        return next;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.open_invitation(token_hash bytea)
 RETURNS invitation
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        opened public.invitation;
      begin
        select i.* into opened
          from public.invitation i join public.api_key k on k.clan_id = i.clan_id and k.id = i.made_by
         where i.token_hash = open_invitation.token_hash and i.accepted_at is null and i.expires_at > now()
           and k.revoked_at is null and 'manage' = any (k.rights)
           for no key update of i;
        if not found then
          raise exception 'the invitation is not known, was used or withdrawn, or has expired' using errcode = 'RB009';
        end if;
        return opened;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.open_session(person_id uuid, session_id uuid, token_hash bytea, user_agent text, wanted_clan_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    delete from app.person_session s where s.expires_at < now() or s.last_used_at < now() - interval '7 days';
    insert into app.person_session (id, person_id, token_hash, user_agent, expires_at, clan_id, member_id)
    select session_id, open_session.person_id, open_session.token_hash, left(open_session.user_agent, 200),
           now() + interval '30 days', k.clan_id, k.id
      from (select) always
      left join lateral (
        select k.clan_id, k.id from public.api_key k
         where k.person_id = open_session.person_id and k.revoked_at is null
         order by k.clan_id is not distinct from wanted_clan_id desc,
                  (select max(s.last_used_at) from app.person_session s
                    where s.person_id = k.person_id and s.clan_id = k.clan_id) desc nulls last, k.created_at, k.clan_id
         limit 1) k on true;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.opened_by(key_hash bytea, OUT clan_id uuid, OUT key_id uuid, OUT rights text[])
 RETURNS record
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        select k.clan_id, k.id, k.rights into clan_id, key_id, rights
          from public.api_key k
         where k.key_hash = opened_by.key_hash and k.revoked_at is null and (k.expires_at is null or k.expires_at > now());
        if not found then
          select k.clan_id, k.id, k.rights into clan_id, key_id, rights
            from app.person_session s join public.api_key k on k.clan_id = s.clan_id and k.id = s.member_id
           where s.token_hash = opened_by.key_hash and s.expires_at > now() and s.last_used_at > now() - interval '7 days'
             and k.revoked_at is null;
          if not found then
            raise exception 'the key or session is not known, has expired or was revoked' using errcode = 'RB002';
          end if;
        end if;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.own_scopes()
 RETURNS integer[]
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        entered text := app.entered();
        clan uuid := left(entered, 36);
        key uuid := right(entered, 36);
      begin
        return array(
          select s.id from public.scope s
           where s.clan_id = clan
             and (s.kind <> 'person' or s.id = (select k.person_scope_id from public.api_key k
                                                 where k.clan_id = clan and k.id = key)));
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.passphrase_of(sign_in_name text, OUT salt bytea, OUT memory_kib integer, OUT passes integer, OUT lanes integer)
 RETURNS record
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select p.salt, p.memory_kib, p.passes, p.lanes from app.person p where p.sign_in_name = $1
  $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.person_sessions(token_hash bytea)
 RETURNS TABLE(session_id uuid, user_agent text, created_at timestamp with time zone, last_used_at timestamp with time zone, expires_at timestamp with time zone, own boolean)
 LANGUAGE plpgsql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid := app.session_person(token_hash);
  begin
    return query select s.id, s.user_agent, s.created_at, s.last_used_at, s.expires_at,
                        s.token_hash = person_sessions.token_hash
      from app.person_session s
     where s.person_id = person and s.expires_at > now() and s.last_used_at > now() - interval '7 days'
     order by s.last_used_at desc, s.id;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.place_player_of_entrant()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    if tg_op <> 'INSERT' then
      perform app.place_players(old.clan_id, array[old.player_id]);
    end if;
    -- A new one can only show more; whom everybody sees already needs no look.
    if tg_op <> 'DELETE' and not exists (
      select from public.player p where p.clan_id = new.clan_id and p.id = new.player_id and app.is_public(p.scope_id)) then
      perform app.place_players(new.clan_id, array[new.player_id]);
    end if;
    return null;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.place_players(clan_id uuid, player_ids uuid[])
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    p record;
    needs integer[];
    target integer;
  begin
    for p in
      select r.id, r.scope_id, s.kind from public.player r join public.scope s on s.id = r.scope_id
       where r.clan_id = place_players.clan_id and r.id = any (player_ids) order by r.id
    loop
      select array_agg(n.scope_id) into needs from (
        select e.scope_id from public.entrant e where e.clan_id = place_players.clan_id and e.player_id = p.id
        union select g.scope_id from public.game g where g.clan_id = place_players.clan_id and g.home_player_id = p.id
        union select g.scope_id from public.game g where g.clan_id = place_players.clan_id and g.away_player_id = p.id
        union select s.id from public.scope s
               where s.clan_id = place_players.clan_id and s.root_id = p.id and s.kind = 'share') n
       where exists (select from public.scope_reader r where r.scope_id = n.scope_id);
      target := null;
      if needs is null then
        select case when p.kind = 'person' then p.scope_id else s.id end into target
          from public.scope s where s.clan_id = place_players.clan_id and s.kind = 'private';
      else
        -- A public one, else one that every reader of the others reads; the present one first, so that little moves.
        select n into target from unnest(needs) n where app.is_public(n) order by n <> p.scope_id, n limit 1;
        if target is null then
          select n into target from unnest(needs) n
           where not exists (
             select from public.scope_reader r where r.scope_id = any (needs)
                and not exists (select from public.scope_reader m where m.scope_id = n and m.clan_id = r.clan_id))
           order by n <> p.scope_id, n limit 1;
        end if;
        if target is null then
          select s.id into target from public.scope s
           where s.clan_id = place_players.clan_id and s.root_id = p.id and s.kind = 'joint';
          if target is null then
            insert into public.scope (clan_id, kind, root_id) values (place_players.clan_id, 'joint', p.id)
            returning id into target;
          end if;
          delete from public.scope_reader r where r.scope_id = target;
          insert into public.scope_reader (scope_id, clan_id, may_reshare)
            select target, r.clan_id, bool_and(r.may_reshare) from public.scope_reader r
             where r.scope_id = any (needs) group by r.clan_id;
        end if;
      end if;
      delete from public.scope_reader r using public.scope s
       where r.scope_id = s.id and s.clan_id = place_players.clan_id and s.root_id = p.id and s.kind = 'joint'
         and s.id <> target;
      update public.player r set scope_id = target
       where r.clan_id = place_players.clan_id and r.id = p.id and r.scope_id <> target;
    end loop;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.place_players_of_game()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    if tg_op <> 'INSERT' then
      perform app.place_players(old.clan_id, array[old.home_player_id, old.away_player_id]);
    end if;
    if tg_op <> 'DELETE' then
      perform app.place_players(new.clan_id, array(
        select p.id from public.player p where p.clan_id = new.clan_id
           and p.id in (new.home_player_id, new.away_player_id) and not app.is_public(p.scope_id)));
    end if;
    return null;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.player_by_key(key_hash bytea, asked uuid, OUT id uuid, OUT handle text, OUT identity uuid, OUT archive text)
 RETURNS SETOF record
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        opened record;
        readable integer[];
        same uuid;
      begin
        select o.clan_id, o.key_id into opened from app.opened_by(key_hash) o;
        readable := app.scopes_of_key(opened.clan_id, opened.key_id);
        select coalesce(p.linked_player_id, p.id) into same from public.player p
         where p.id = asked and p.scope_id = any (readable)
         order by p.clan_id <> opened.clan_id limit 1;
        if not found then return; end if;
        archive := app.revision_of(readable);
        return query
          select p.id, p.handle, same, archive from public.player p
           where (p.id = same or p.linked_player_id = same) and p.scope_id = any (readable)
           order by p.clan_id <> opened.clan_id, p.id;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.queue_deliveries()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    insert into public.webhook_delivery (clan_id, id, webhook_id, source_clan_id, event_id, kind, body)
      select w.clan_id, app.new_id(), w.id, f.clan_id, f.event_id, f.kind,
             json_build_object('type', f.kind, 'timestamp', t.at, 'data', json_build_object('sequence', f.sequence,
               'kind', f.kind, 'at', t.at, 'eventId', f.event_id, 'matchIds', f.match_ids))::text
        from public.feed_entry f
        join public.webhook w on w.source_clan_id = f.clan_id and (w.event_id is null or w.event_id = f.event_id)
        cross join lateral (select to_char(f.told_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as at) t
       where f.clan_id = new.clan_id and f.sequence = new.sequence and w.ended_at is null
         and app.may_follow(w.clan_id, f.clan_id, f.event_id);
    if found then
      perform pg_notify('roundbook_feed', 'deliveries');
    end if;
    return null;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.raise_chart(raised uuid, pack_format integer, plays_now integer, pack bytea)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        clan uuid := app.clan();
        scope integer;
        revision_now integer;
      begin
        update public.chart c set revision = c.revision + 1, plays = plays_now
         where c.clan_id = clan and c.id = raised and c.scope_id = any (app.own_scopes())
        returning c.scope_id, c.revision into scope, revision_now;
        if not found then
          raise exception 'no chart of this clan has this id' using errcode = 'RB004';
        end if;
        update public.chart_pack k
           set format = pack_format, revision = revision_now, plays = plays_now, bytes = pack
         where k.clan_id = clan and k.chart_id = raised;
        update public.scope s set revision = s.revision + 1 where s.id = scope;
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.raise_scope_revision(scope_ids integer[])
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        -- In order of id, so that two writers cannot lock the same rows the other way round.
        perform from public.scope s
          where s.id = any (scope_ids) and s.id = any (app.own_scopes()) order by s.id for no key update;
        update public.scope s set revision = s.revision + 1
          where s.id = any (scope_ids) and s.id = any (app.own_scopes());
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.remove_member(member_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    perform app.require_right('manage');
    perform app.end_membership(app.clan(), member_id);
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.renew_seal_key()
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        -- Four random uuids: 488 random bits, more than the digest keeps. Filled up to the block length of SHA-256.
        key bytea := uuid_send(gen_random_uuid()) || uuid_send(gen_random_uuid())
                  || uuid_send(gen_random_uuid()) || uuid_send(gen_random_uuid());
        inside bytea := key;
        outside bytea := key;
      begin
        for at in 0..63 loop
          inside := set_byte(inside, at, get_byte(key, at) # 54);   -- 0x36
          outside := set_byte(outside, at, get_byte(key, at) # 92); -- 0x5c
        end loop;
        delete from app.seal_key;
        insert into app.seal_key (inner_pad, outer_pad) values (inside, outside);
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.renew_webhook_secret(webhook_id uuid, secret bytea)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    perform app.require_right('manage');
    update public.webhook w set former_secret = w.secret, secret = renew_webhook_secret.secret, secret_since = now()
     where w.clan_id = app.clan() and w.id = webhook_id;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.require_owner(clan_id uuid, without_member_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    perform from public.clan c where c.id = require_owner.clan_id for no key update;
    if exists (select from public.api_key k where k.clan_id = require_owner.clan_id and k.id = without_member_id
                  and k.role = 'owner' and k.revoked_at is null)
       and not exists (select from public.api_key k where k.clan_id = require_owner.clan_id
                          and k.id <> without_member_id and k.role = 'owner' and k.revoked_at is null) then
      raise exception 'the clan would have no owner' using errcode = 'RB007';
    end if;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.require_reachable_term(term_id integer, clan_id uuid, what text)
 RETURNS term
 LANGUAGE plpgsql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        found_term public.term;
      begin
        select * into found_term from public.term t
         where t.id = term_id and (t.clan_id is null or t.clan_id = require_reachable_term.clan_id);
        if not found then
          raise exception '% is no term of this clan', what using errcode = 'foreign_key_violation';
        end if;
        return found_term;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.require_right(wanted text)
 RETURNS void
 LANGUAGE plpgsql
 STABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        if not app.may(wanted) then
          raise exception 'this key has no right to %', wanted using errcode = 'RB005';
        end if;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.revision_of(scopes integer[])
 RETURNS text
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return (select md5(coalesce(string_agg(s.id || ':' || s.revision, ' ' order by s.id), ''))
                  from public.scope s where s.id = any (scopes));
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.rights()
 RETURNS text[]
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    entered text := app.entered();
  begin
    return (select case when 'manage' = any (k.rights) then array['profiles', 'read', 'write', 'manage']
                        when 'read' = any (k.rights) then k.rights || 'profiles'::text else k.rights end
              from public.api_key k where k.clan_id = left(entered, 36)::uuid and k.id = right(entered, 36)::uuid);
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.rights_of_role(role text)
 RETURNS text[]
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select case $1 when 'owner' then array['read', 'write', 'manage'] when 'analyst' then array['read', 'write']
                   when 'reader' then array['read'] end
  $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.scopes()
 RETURNS integer[]
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        link text := nullif(current_setting('roundbook.link', true), '');
        entered text;
      begin
        if link is not null then
          return app.scopes_of_link(link);
        end if;
        entered := app.entered();
        return app.scopes_of_key(left(entered, 36)::uuid, right(entered, 36)::uuid);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.scopes_of_key(clan uuid, key uuid)
 RETURNS integer[]
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      begin
        return array(
          select s.id from public.scope s
           where s.clan_id = clan
             and (s.kind <> 'person' or s.id = (select k.person_scope_id from public.api_key k
                                                 where k.clan_id = clan and k.id = key))
          union all
          select r.scope_id from public.scope_reader r where r.clan_id = clan
          union all
          select r.scope_id from public.scope_reader r where r.clan_id is null);
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.scopes_of_link(link text)
 RETURNS integer[]
 LANGUAGE plpgsql
 STABLE PARALLEL RESTRICTED
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        clan uuid := left(link, 36);
      begin
        if substr(link, 75) is distinct from app.seal('link ' || left(link, 73)) then
          raise exception 'the link is forged or belongs to another transaction' using errcode = 'RB003';
        end if;
        return array(
          select s.id from public.scope s where s.clan_id = clan and s.kind <> 'person'
          union all
          select r.scope_id from public.round_report r
            join public.share_link l on l.clan_id = r.clan_id and l.report_id = r.id
           where l.clan_id = clan and l.id = substr(link, 38, 36)::uuid
          union all
          select r.scope_id from public.scope_reader r where r.clan_id is null or r.clan_id = clan and r.may_reshare);
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.seal(opened text)
 RETURNS text
 LANGUAGE sql
 STABLE PARALLEL RESTRICTED
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
        select encode(sha256(outer_pad || sha256(inner_pad || convert_to($1, 'UTF8') || int4send(pg_backend_pid())
                 || timestamptz_send(transaction_timestamp()))), 'hex')
          from app.seal_key
      $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.service_is_fresh()
 RETURNS boolean
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select not exists (select from public.clan)
  $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.session_of(token_hash bytea, OUT session_id uuid, OUT sign_in_name text, OUT clan_id uuid, OUT member_id uuid, OUT created_at timestamp with time zone, OUT expires_at timestamp with time zone, OUT clans jsonb)
 RETURNS record
 LANGUAGE plpgsql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid := app.session_person(token_hash);
  begin
    select s.id, p.sign_in_name, k.clan_id, k.id, s.created_at, s.expires_at
      into session_id, sign_in_name, clan_id, member_id, created_at, expires_at
      from app.person_session s join app.person p on p.id = s.person_id
      left join public.api_key k on k.clan_id = s.clan_id and k.id = s.member_id and k.revoked_at is null
     where s.token_hash = session_of.token_hash;
    select coalesce(jsonb_agg(jsonb_build_object('clanId', c.id, 'clanName', c.name, 'memberId', k.id,
                                                 'memberName', k.name, 'role', k.role)
                              order by k.created_at, c.id), '[]')
      into clans
      from public.api_key k join public.clan c on c.id = k.clan_id
     where k.person_id = person and k.revoked_at is null;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.session_person(token_hash bytea)
 RETURNS uuid
 LANGUAGE plpgsql
 STABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid;
  begin
    select s.person_id into person from app.person_session s
     where s.token_hash = session_person.token_hash and s.expires_at > now()
       and s.last_used_at > now() - interval '7 days';
    if not found then
      raise exception 'the session is not known or has ended' using errcode = 'RB002';
    end if;
    return person;
  end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.set_role(member_id uuid, role text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    clan uuid := app.clan();
  begin
    perform app.require_right('manage');
    if set_role.role <> 'owner' then
      perform app.require_owner(clan, member_id);
    end if;
    update public.api_key k set role = set_role.role, rights = app.rights_of_role(set_role.role)
     where k.clan_id = clan and k.id = member_id and k.role is not null and k.revoked_at is null;
    if not found then
      raise exception 'the clan has no such member' using errcode = 'RB004';
    end if;
    -- A key does not outlast the right of its maker to make it.
    update public.api_key k set revoked_at = now()
     where k.clan_id = clan and k.made_by = member_id and k.revoked_at is null
       and not k.rights <@ (array['profiles'] || app.rights_of_role(set_role.role));
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.set_visibility(kind text, root_id uuid, everyone boolean, clan_ids uuid[], resharing_ids uuid[])
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    clan uuid := app.clan();
    held integer;
    own integer;
    shown boolean := everyone or cardinality(clan_ids) > 0;
    players uuid[];
  begin
    perform app.require_right('manage');
    if kind not in ('event', 'game', 'player') then
      raise exception 'only events, games and players are shown' using errcode = 'RB004';
    end if;
    execute format('select scope_id from public.%I where clan_id = $1 and id = $2 for no key update', kind)
       into held using clan, set_visibility.root_id;
    if held is null or not held = any (app.own_scopes()) then
      raise exception 'no % of this clan has this id', kind using errcode = 'RB004';
    end if;
    select s.id into own from public.scope s
     where s.clan_id = clan and s.root_id = set_visibility.root_id and s.kind <> 'joint';
    -- A game that was kept back has a scope of its own too, so that showing its event later does not show the game.
    if own is null and (shown or kind = 'game') then
      insert into public.scope (clan_id, kind, root_id)
      values (clan, case set_visibility.kind when 'event' then 'event' else 'share' end, set_visibility.root_id)
      returning id into own;
    end if;
    delete from public.scope_reader r where r.scope_id = own;
    insert into public.scope_reader (scope_id, clan_id, may_reshare)
      select own, null, true where everyone
      union select own, c, c = any (resharing_ids) from unnest(clan_ids) c where not everyone;

    if kind = 'event' then
      if shown then
        -- Entrants and matches follow by their foreign keys.
        update public.event e set scope_id = own where e.clan_id = clan and e.id = set_visibility.root_id and held <> own;
        perform app.move_game(clan, g.id, own) from public.game g
          where g.clan_id = clan and g.event_id = set_visibility.root_id and g.scope_id = held;
      end if;
      select array_agg(n.player_id) into players from (
        select n.player_id from public.entrant n where n.clan_id = clan and n.event_id = set_visibility.root_id
        union select unnest(array[g.home_player_id, g.away_player_id]) from public.game g
          where g.clan_id = clan and g.event_id = set_visibility.root_id) n;
    elsif kind = 'game' then
      perform app.move_game(clan, set_visibility.root_id, own);
      select array[g.home_player_id, g.away_player_id] into players from public.game g
       where g.clan_id = clan and g.id = set_visibility.root_id;
    else
      players := array[set_visibility.root_id];
    end if;
    perform app.place_players(clan, players);
    perform app.raise_scope_revision(array_remove(array[held, own], null));
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.settle_delivery(clan_id uuid, webhook_id uuid, lease uuid, id uuid, moment timestamp with time zone, state text, status integer, problem text, due_at timestamp with time zone, ends text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  #variable_conflict use_column
  begin
    update public.webhook w
       set lease = null, free_at = moment, ended_because = coalesce(w.ended_because, ends),
           ended_at = case when ends is null then w.ended_at else coalesce(w.ended_at, moment) end
     where w.clan_id = settle_delivery.clan_id and w.id = settle_delivery.webhook_id
       and w.lease = settle_delivery.lease;
    if not found then return; end if;
    update public.webhook_delivery d
       set state = settle_delivery.state, last_status = settle_delivery.status, last_problem = settle_delivery.problem,
           due_at = coalesce(settle_delivery.due_at, d.due_at)
     where d.clan_id = settle_delivery.clan_id and d.id = settle_delivery.id;
    -- As long as the feed keeps what it told.
    delete from public.webhook_delivery d
     where d.clan_id = settle_delivery.clan_id and d.webhook_id = settle_delivery.webhook_id and d.state <> 'waiting'
       and d.queued_at < moment - interval '7 days';
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.sign_in(sign_in_name text, proof bytea, session_id uuid, token_hash bytea, user_agent text, wanted_clan_id uuid, new_salt bytea, new_memory_kib integer, new_passes integer, new_lanes integer, new_proof bytea)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  declare
    person uuid;
  begin
    select p.id into person from app.person p
     where p.sign_in_name = sign_in.sign_in_name and p.verifier = sha256(proof);
    if not found then
      raise exception 'the name or the passphrase is not right' using errcode = 'RB008';
    end if;
    if new_proof is not null then
      update app.person p set salt = new_salt, memory_kib = new_memory_kib, passes = new_passes, lanes = new_lanes,
                              verifier = sha256(new_proof)
       where p.id = person;
    end if;
    perform app.open_session(person, session_id, token_hash, user_agent, wanted_clan_id);
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.sign_in_elsewhere(identity_proof bytea, session_id uuid, token_hash bytea, user_agent text, wanted_clan_id uuid)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        person uuid;
      begin
        select i.person_id into person from app.person_identity i where i.proof_hash = sha256(identity_proof);
        if not found then
          raise exception 'nobody here signs in as that' using errcode = 'RB008';
        end if;
        perform app.open_session(person, session_id, token_hash, user_agent, wanted_clan_id);
      end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.sign_up(person_id uuid, sign_in_name text, salt bytea, memory_kib integer, passes integer, lanes integer, proof bytea, clan_id uuid, clan_name text, member_id uuid, member_name text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  begin
    -- Two at the same moment would both find it fresh. Any fixed number does.
    perform pg_advisory_xact_lock(730402);
    if not app.service_is_fresh() then
      raise exception 'this service has a clan already; ask its owner for an invitation' using errcode = 'RB006';
    end if;
    perform app.create_clan(clan_id, clan_name);
    perform app.make_person(person_id, sign_in_name, salt, memory_kib, passes, lanes, proof);
    perform app.make_member(clan_id, member_id, person_id, member_name, 'owner');
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.take_deliveries(moment timestamp with time zone, lease_seconds integer, most integer)
 RETURNS TABLE(clan_id uuid, webhook_id uuid, lease uuid, id uuid, url text, body text, attempts integer, seconds bigint, signature text)
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  #variable_conflict use_column
  declare
    hook public.webhook;
    told public.webhook_delivery;
  begin
    for hook in
      select w.* from public.webhook w
       where w.ended_at is null and w.free_at <= moment
         and exists (select from public.webhook_delivery d where d.clan_id = w.clan_id and d.webhook_id = w.id
                        and d.state = 'waiting' and d.due_at <= moment)
       order by w.free_at, w.clan_id, w.id limit most for update of w skip locked
    loop
      if not exists (select from public.api_key k where k.clan_id = hook.clan_id and k.id = hook.made_by
                        and k.revoked_at is null and (k.expires_at is null or k.expires_at > moment)
                        and 'manage' = any (k.rights)) then
        update public.webhook w set ended_at = moment, ended_because = 'maker without right'
         where w.clan_id = hook.clan_id and w.id = hook.id;
        continue;
      end if;
      update public.webhook_delivery d set state = 'withheld'
       where d.clan_id = hook.clan_id and d.webhook_id = hook.id and d.state = 'waiting' and d.due_at <= moment
         and d.event_id is not null and not app.may_follow(d.clan_id, d.source_clan_id, d.event_id);
      update public.webhook_delivery d set attempts = d.attempts + 1, attempted_at = moment
       where d.clan_id = hook.clan_id and d.id = (
         select n.id from public.webhook_delivery n
          where n.clan_id = hook.clan_id and n.webhook_id = hook.id and n.state = 'waiting' and n.due_at <= moment
          order by n.due_at, n.id limit 1)
      returning d.* into told;
      continue when not found;
      clan_id := hook.clan_id;
      webhook_id := hook.id;
      lease := gen_random_uuid();
      update public.webhook w set lease = take_deliveries.lease, free_at = moment + make_interval(secs => lease_seconds)
       where w.clan_id = hook.clan_id and w.id = hook.id;
      id := told.id;
      url := hook.url;
      body := told.body;
      attempts := told.attempts;
      seconds := floor(extract(epoch from moment));
      signature := app.webhook_signature(hook.secret, told.id::text, seconds, body);
      if hook.former_secret is not null and hook.secret_since > moment - interval '1 day' then
        signature := signature || ' ' || app.webhook_signature(hook.former_secret, told.id::text, seconds, body);
      end if;
      return next;
    end loop;
  end $function$
-- may be executed by: roundbook_owner, roundbook_service

CREATE OR REPLACE FUNCTION app.tell_bracket_changed()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        number bigint;
        scope integer;
      begin
        -- As it is at the end of the transaction, where this runs: it may have been published, or be gone.
        select m.scope_id into scope from public.match m where m.clan_id = new.clan_id and m.id = new.id;
        if not found then
          return null;
        end if;
        -- A bracket of thousands need not be listed: whoever is told of so many reads it anew.
        update public.feed_entry f set match_ids = f.match_ids || new.id
         where f.clan_id = new.clan_id and f.told_in = pg_current_xact_id() and f.event_id = new.event_id
           and cardinality(f.match_ids) < 100 and not f.match_ids @> array[new.id];
        if found or exists (select from public.feed_entry f where f.clan_id = new.clan_id
                               and f.told_in = pg_current_xact_id() and f.event_id = new.event_id) then
          return null;
        end if;
        update public.clan c set feed_sequence = c.feed_sequence + 1 where c.id = new.clan_id
          returning c.feed_sequence into number;
        insert into public.feed_entry (clan_id, sequence, scope_id, kind, event_id, match_ids)
          values (new.clan_id, number, scope, 'bracket.changed', new.event_id, array[new.id]);
        -- Who was away for longer, and missed more, reads the bracket instead.
        delete from public.feed_entry f
         where f.clan_id = new.clan_id and f.told_at < now() - interval '7 days' and f.sequence <= number - 1000;
        perform pg_notify('roundbook_feed', new.clan_id::text);
        return null;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.use_invitation(token_hash bytea, person_id uuid, member_id uuid, member_name text, audit_id uuid)
 RETURNS uuid
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
      declare
        opened public.invitation := app.open_invitation(token_hash);
        member uuid;
      begin
        perform app.make_member(opened.clan_id, member_id, person_id, member_name, opened.role);
        select k.id into member from public.api_key k
         where k.clan_id = opened.clan_id and k.person_id = use_invitation.person_id;
        update public.invitation i set accepted_at = now(), accepted_by = member
         where i.clan_id = opened.clan_id and i.id = opened.id;
        insert into public.audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id, details)
        values (opened.clan_id, audit_id, member, 'member.joined', 'member', member,
                jsonb_build_object('role', opened.role));
        return opened.clan_id;
      end $function$
-- may be executed by: roundbook_owner

CREATE OR REPLACE FUNCTION app.webhook_signature(secret bytea, id text, seconds bigint, body text)
 RETURNS text
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
    select 'v1,' || encode(app.hmac_sha256($1, convert_to($2 || '.' || $3 || '.' || $4, 'UTF8')), 'base64')
  $function$
-- may be executed by: roundbook_owner

