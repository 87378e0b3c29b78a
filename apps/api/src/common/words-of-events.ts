// Words that the columns of events, matches, games and film allow, however they come in or go out.

export const EVENT_STATUS = ['planned', 'running', 'finished'];
export const MATCH_STATUS = ['open', 'ready', 'finished', 'forfeited'];
export const IMPORTANCE = ['scrimmage', 'group', 'elimination'];
export const ENDINGS = ['completed', 'conceded', 'disconnected'];
export const VIDEO_KINDS = ['own view', 'opponent view', 'neutral', 'highlights'];
