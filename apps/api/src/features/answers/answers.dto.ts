import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional } from 'class-validator';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { CountResponse, CountedShareResponse, IntervalResponse, ResultsResponse } from '../../common/figures.dto.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { OpponentQuery } from '../../common/opponent-query.dto.js';
import { IsTermWord } from '../../common/term-word.js';

export class AnswersQuery extends OpponentQuery {
  @IsTermWord('concept', 'counter read') concept?: string;
  @IsTermWord('callFamily', 'option') callFamily?: string;
  @IsTermWord('formation', 'trips') formation?: string;
  @IsTermWord('front') front?: string;
  @IsTermWord('coverage') coverage?: string;
  @IsTermWord('pressure') pressure?: string;

  @ApiPropertyOptional({
    enum: ['run', 'pass'],
    description: "the opponent's best call of that kind, in place of naming one; for the side offense",
  })
  @IsOptional()
  @IsIn(['run', 'pass'])
  best?: 'run' | 'pass';
}

export class PointsResponse {
  @ApiProperty({ example: -0.16, description: 'expected points a play, from the side with the ball' }) mean!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
}

export class WhoResponse {
  @ApiProperty({ type: String, nullable: true, format: 'uuid', example: EXAMPLE_IDS.opponent })
  playerId!: string | null;
  @ApiProperty({ type: String, nullable: true, example: 'Brass Heron' }) handle!: string | null;
}

export class WhoPlaysResponse extends WhoResponse {
  @ApiProperty({ example: 6 }) plays!: number;
}

export class OwnedCallResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.menuCall }) id!: string;
  @ApiProperty({ example: 'Narrow Door', description: 'our own name for it' }) name!: string;
  @ApiProperty({ example: true }) rehearsed!: boolean;
  @ApiProperty({ example: true, description: 'whether we can get into it at the line' }) reachableByCheck!: boolean;
}

export class MechanismResponse {
  @ApiProperty({
    enum: [
      'free rusher',
      'forced off the design',
      'block defeated',
      'passer pressured',
      'no gain or a loss',
      'explosive play',
    ],
  })
  name!: string;
  @ApiProperty({ type: CountResponse, description: 'with this answer' }) with!: CountResponse;
  @ApiProperty({ type: CountResponse, description: 'with other answers to the same call' }) without!: CountResponse;
  @ApiProperty({ type: IntervalResponse, nullable: true, description: 'share with it less share without' })
  difference!: IntervalResponse | null;
  @ApiProperty({ type: Number, nullable: true, example: 0.0004 }) pValue!: number | null;
  @ApiProperty({ description: 'stands once all answers and mechanisms are taken together' }) established!: boolean;
}

export class PriceResponse {
  @ApiProperty({ example: 'inside zone', description: 'what they do best against it' }) label!: string;
  @ApiProperty({ type: PointsResponse }) points!: PointsResponse;
}

export class AnswerResponse {
  @ApiProperty({ description: 'the figures as a sentence' }) words!: string;
  @ApiProperty({ example: 'Narrow Door' }) label!: string;
  @ApiProperty({ type: OwnedCallResponse, nullable: true, description: 'ours; null for one to install' })
  menuCall!: OwnedCallResponse | null;
  @ApiProperty({ description: 'never seen as such; what is said rests on calls most like it' }) byItsLike!: boolean;
  @ApiProperty({ example: 14, description: 'times the call met it' }) timesMet!: number;
  @ApiProperty({ example: 9 }) games!: number;
  @ApiProperty({ type: [WhoPlaysResponse], description: 'who did it' }) who!: WhoPlaysResponse[];
  @ApiProperty({ type: PointsResponse, description: 'beside the mean of the situation, players of the mean' })
  points!: PointsResponse;
  @ApiProperty({ type: PointsResponse, description: 'beside what the call usually gets' })
  againstUsual!: PointsResponse;
  @ApiProperty({
    type: PointsResponse,
    nullable: true,
    description: 'success beside the mean of the situation, as a share',
  })
  success!: PointsResponse | null;
  @ApiProperty({ type: ResultsResponse, description: 'as they came' }) results!: ResultsResponse;
  @ApiProperty({ type: [MechanismResponse], description: 'what went with it; nobody can say what caused what' })
  mechanisms!: MechanismResponse[];
  @ApiProperty({ type: PriceResponse, nullable: true, description: 'what it costs if they adjust' })
  price!: PriceResponse | null;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class RefinementResponse {
  @ApiProperty({ description: 'the figures as a sentence' }) words!: string;
  @ApiProperty({ enum: ['alignment', 'adjustment', 'manual defender'] }) what!: string;
  @ApiProperty({ example: 'safety down strong' }) label!: string;
  @ApiProperty({ example: 140 }) termId!: number;
  @ApiProperty({ example: 5 }) timesMet!: number;
  @ApiProperty({ example: 3 }) games!: number;
  @ApiProperty({ type: PointsResponse, description: 'beyond what situation, call and both players lead one to expect' })
  beyond!: PointsResponse;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class UsedAnswerResponse {
  @ApiProperty({ example: 'three down tight + cover 3 sky + four-man rush' }) label!: string;
  @ApiProperty({ example: 2 }) plays!: number;
}

export class GameMetResponse {
  @ApiProperty({ description: 'the figures as a sentence' }) words!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ type: WhoResponse }) offense!: WhoResponse;
  @ApiProperty({ type: WhoResponse }) defense!: WhoResponse;
  @ApiProperty({ type: PointsResponse, description: 'beyond expectation, drawn towards the other games' })
  beyond!: PointsResponse;
  @ApiProperty({ example: -0.55, description: 'the same as it came' }) rawBeyond!: number;
  @ApiProperty({ type: CountResponse, description: 'successes of plays that have one' }) success!: CountResponse;
  @ApiProperty({ example: 2.3, description: 'successes that were to be expected' }) expectedSuccesses!: number;
  @ApiProperty({ type: [UsedAnswerResponse] }) answers!: UsedAnswerResponse[];
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class ReAdjustmentThenResponse extends CountedShareResponse {
  @ApiProperty({ example: 'safeties rotated' }) label!: string;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
}

export class ReAdjustmentAnswerResponse extends CountedShareResponse {
  @ApiProperty({ example: 'play mirrored' }) label!: string;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
  @ApiProperty({ example: 4, description: 'plays on which the ball was snapped then' }) snapped!: number;
  @ApiProperty({ type: [ReAdjustmentThenResponse], description: 'what was done about it' })
  then!: ReAdjustmentThenResponse[];
}

export class ReAdjustmentResponse {
  @ApiProperty({ example: 'line shifted', description: 'a move of our side, as others showed it' }) label!: string;
  @ApiProperty({ example: 12, description: 'plays on which it opened the duel' }) timesShown!: number;
  @ApiProperty({ example: 5, description: 'plays on which the ball was snapped without an answer' }) snapped!: number;
  @ApiProperty({ type: [ReAdjustmentAnswerResponse] }) answers!: ReAdjustmentAnswerResponse[];
}

export class RosterSplitResponse {
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ example: 'linebackers' }) unit!: string;
  @ApiProperty({ enum: ['weak', 'strong'] }) strength!: string;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class AskedAboutResponse {
  @ApiProperty({ example: 'counter read' }) label!: string;
  @ApiProperty({ example: 132, description: 'plays of it in the field' }) fieldPlays!: number;
  @ApiProperty({ example: 9, description: "of these the opponent's own" }) opponentPlays!: number;
  @ApiProperty({ example: 40, description: 'of the field, from the formation that was asked for' })
  fromFormation!: number;
}

export class AnswersResponse extends AnswerHeadResponse {
  @ApiProperty({ type: AskedAboutResponse }) call!: AskedAboutResponse;
  @ApiProperty({
    type: [GameMetResponse],
    description: 'games that met it; the ones that held it best come first, for a defense the ones that beat it most',
  })
  games!: GameMetResponse[];
  @ApiProperty({
    type: [AnswerResponse],
    description: 'from the huddle, whatever the formation: installed calls first, then what to install',
  })
  huddle!: AnswerResponse[];
  @ApiProperty({ type: [AnswerResponse], description: 'at the line, the formation seen: installed calls by a check' })
  checks!: AnswerResponse[];
  @ApiProperty({ type: [RefinementResponse], description: 'at the line: what was moved' }) moves!: RefinementResponse[];
  @ApiProperty({ type: [RefinementResponse], description: 'by hand, after the checks' }) byHand!: RefinementResponse[];
  @ApiProperty({ type: [ReAdjustmentResponse], description: 'what this opponent does once our move is seen' })
  reAdjustments!: ReAdjustmentResponse[];
  @ApiProperty({
    type: [RosterSplitResponse],
    description: 'results by the strength of units, where events graded them',
  })
  rosterFit!: RosterSplitResponse[];
}
