import { Module, type DynamicModule } from '@nestjs/common';
import type { Settings } from './config/settings.js';
import { ConventionsModule } from './common/conventions.module.js';
import { AccountModule } from './features/account/account.module.js';
import { AdjustmentsModule } from './features/adjustments/adjustments.module.js';
import { BracketsModule } from './features/brackets/brackets.module.js';
import { AnswersModule } from './features/answers/answers.module.js';
import { CallMixModule } from './features/call-mix/call-mix.module.js';
import { ChartingQueueModule } from './features/charting-queue/charting-queue.module.js';
import { CallStudiesModule } from './features/answers/call-studies.module.js';
import { CallSheetsModule } from './features/call-sheets/call-sheets.module.js';
import { CoachingPointsModule } from './features/coaching-points/coaching-points.module.js';
import { DecisionsModule } from './features/decisions/decisions.module.js';
import { DisguiseModule } from './features/disguise/disguise.module.js';
import { DriftModule } from './features/drift/drift.module.js';
import { InvitationsModule } from './features/invitations/invitations.module.js';
import { KeysModule } from './features/keys/keys.module.js';
import { MembersModule } from './features/members/members.module.js';
import { MenuModule } from './features/menu/menu.module.js';
import { NextCallModule } from './features/next-call/next-call.module.js';
import { OwnCallsModule } from './features/own-calls/own-calls.module.js';
import { DatabaseModule } from './database/database.module.js';
import { EventsModule } from './features/events/events.module.js';
import { FeedModule } from './features/feed/feed.module.js';
import { GamesModule } from './features/games/games.module.js';
import { HealthModule } from './features/health/health.module.js';
import { ImportsModule } from './features/imports/imports.module.js';
import { ManualDefenderModule } from './features/manual-defender/manual-defender.module.js';
import { PeopleModule } from './features/people/people.module.js';
import { PlayersModule } from './features/players/players.module.js';
import { PlaysModule } from './features/plays/plays.module.js';
import { PointOfAttackModule } from './features/point-of-attack/point-of-attack.module.js';
import { PreparationModule } from './features/preparation/preparation.module.js';
import { ProfileModule } from './features/profile/profile.module.js';
import { RoundReportsModule } from './features/round-reports/round-reports.module.js';
import { SequencesModule } from './features/sequences/sequences.module.js';
import { TellsModule } from './features/tells/tells.module.js';
import { TrendsModule } from './features/trends/trends.module.js';
import { AuditModule } from './features/audit/audit.module.js';
import { PrivacyModule } from './features/privacy/privacy.module.js';
import { VisibilityModule } from './features/visibility/visibility.module.js';
import { WebhooksModule } from './features/webhooks/webhooks.module.js';

@Module({})
export class AppModule {
  static with(settings: Settings, serviceUrl: string): DynamicModule {
    return {
      module: AppModule,
      imports: [
        DatabaseModule.connect(settings, serviceUrl),
        ConventionsModule,
        AccountModule,
        AdjustmentsModule,
        BracketsModule,
        ChartingQueueModule,
        AnswersModule,
        CallMixModule,
        NextCallModule,
        OwnCallsModule,
        MenuModule,
        CallSheetsModule,
        CallStudiesModule,
        CoachingPointsModule,
        DecisionsModule,
        DisguiseModule,
        DriftModule,
        EventsModule,
        FeedModule,
        GamesModule,
        HealthModule,
        ImportsModule,
        ManualDefenderModule,
        InvitationsModule,
        KeysModule,
        MembersModule,
        PeopleModule,
        PlayersModule,
        PlaysModule,
        PointOfAttackModule,
        PreparationModule,
        ProfileModule,
        RoundReportsModule,
        SequencesModule,
        TellsModule,
        TrendsModule,
        VisibilityModule,
        WebhooksModule,
        AuditModule,
        PrivacyModule,
      ],
    };
  }
}
