import { CreateClans1767225600000 } from './1767225600000-CreateClans.js';
import { CreateVocabulary1767225600001 } from './1767225600001-CreateVocabulary.js';
import { CreatePlayersAndEvents1767225600002 } from './1767225600002-CreatePlayersAndEvents.js';
import { CreateGames1767225600003 } from './1767225600003-CreateGames.js';
import { CreatePlays1767225600004 } from './1767225600004-CreatePlays.js';
import { CreateOwnBook1767225600005 } from './1767225600005-CreateOwnBook.js';
import { CreateRecords1767225600006 } from './1767225600006-CreateRecords.js';
import { AddPublishing1767225600007 } from './1767225600007-AddPublishing.js';
import { CreateCoachingPoints1767225600020 } from './1767225600020-CreateCoachingPoints.js';
import { GradeUnits1767225600021 } from './1767225600021-GradeUnits.js';
import { MergeTerms1767225600022 } from './1767225600022-MergeTerms.js';
import { NeverReusePlayNumbers1767225600023 } from './1767225600023-NeverReusePlayNumbers.js';
import { CreateReconciliations1767225600100 } from './1767225600100-CreateReconciliations.js';
import { CreateSheetMappings1767225600101 } from './1767225600101-CreateSheetMappings.js';
import { LinkMatches1767225600200 } from './1767225600200-LinkMatches.js';
import { CreateMatchUpOverrides1767225600201 } from './1767225600201-CreateMatchUpOverrides.js';
import { ChooseVisibility1767225600330 } from './1767225600330-ChooseVisibility.js';
import { ShareReportsByLink1767225600331 } from './1767225600331-ShareReportsByLink.js';
import { ErasePlayers1767225600332 } from './1767225600332-ErasePlayers.js';
import { DropImportReceipts1767225600350 } from './1767225600350-DropImportReceipts.js';
import { DeleteClanByCatalog1767225600351 } from './1767225600351-DeleteClanByCatalog.js';
import { CreateWebhooks1767225600420 } from './1767225600420-CreateWebhooks.js';
import { ErasePeople1767225600421 } from './1767225600421-ErasePeople.js';
import { AnalyzeGrownTables1767225600430 } from './1767225600430-AnalyzeGrownTables.js';
import { AskOfPlayers1767225600450 } from './1767225600450-AskOfPlayers.js';
import { ChartPlayByPlay1767225600440 } from './1767225600440-ChartPlayByPlay.js';
import { MarkCallsReachedByCheck1767225600400 } from './1767225600400-MarkCallsReachedByCheck.js';
import { CreatePeople1767225600300 } from './1767225600300-CreatePeople.js';
import { CreateInvitations1767225600301 } from './1767225600301-CreateInvitations.js';
import { LetRowsBePersonal1767225600302 } from './1767225600302-LetRowsBePersonal.js';
import { CreateFeed1767225600360 } from './1767225600360-CreateFeed.js';

/** In the order in which they run. Listed rather than found on disk, so that source and build run the same. */
export const MIGRATIONS = [
  CreateClans1767225600000,
  CreateVocabulary1767225600001,
  CreatePlayersAndEvents1767225600002,
  CreateGames1767225600003,
  CreatePlays1767225600004,
  CreateOwnBook1767225600005,
  CreateRecords1767225600006,
  AddPublishing1767225600007,
  CreateCoachingPoints1767225600020,
  GradeUnits1767225600021,
  MergeTerms1767225600022,
  NeverReusePlayNumbers1767225600023,
  CreateReconciliations1767225600100,
  CreateSheetMappings1767225600101,
  LinkMatches1767225600200,
  CreateMatchUpOverrides1767225600201,
  CreatePeople1767225600300,
  CreateInvitations1767225600301,
  LetRowsBePersonal1767225600302,
  ChooseVisibility1767225600330,
  ShareReportsByLink1767225600331,
  ErasePlayers1767225600332,
  DropImportReceipts1767225600350,
  DeleteClanByCatalog1767225600351,
  CreateFeed1767225600360,
  MarkCallsReachedByCheck1767225600400,
  CreateWebhooks1767225600420,
  ErasePeople1767225600421,
  AnalyzeGrownTables1767225600430,
  ChartPlayByPlay1767225600440,
  AskOfPlayers1767225600450,
];
