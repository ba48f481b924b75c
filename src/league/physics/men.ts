/**
 * Skills of defenders in a flat array, SKILL_STRIDE numbers a man: what `Men` holds for nine men of one play and what
 * the truth holds for everybody.
 */
export const FIRST_STEP = 0; // seconds from contact to the first step
export const TOP_SPEED = 1; // ft/s
export const GLOVE = 2; // feet of arm's length more than usual
export const HANDS = 3; // logit units against dropping a ball
export const ARM = 4; // mph of a full throw
export const RELEASE = 5; // seconds from glove to release
export const THROWS_LEFT = 6; // 1 for a left-handed thrower, whose glove is on his right
export const SKILL_STRIDE = 7;
/** Names of the six skills; THROWS_LEFT is a fact, not a skill. */
export const SKILL_NAMES = [
  'first_step_s',
  'top_speed_ft_s',
  'glove_ft',
  'hands_logit',
  'arm_mph',
  'release_s',
] as const;

/** Later first step of a position, seconds: the pitcher finishes his delivery, the catcher rises, outfielders read. */
export const LATE_STEP_S: readonly number[] = [0, 0.48, 0.3, 0, 0, 0, 0, 0.66, 0.66, 0.66];

/** A man gains speed at this rate, ft/s each second, until he is at his top speed. */
export const GAIN_FT_S2 = 20;

/** Usual arm's length from a man's middle to his glove, feet, and what a dive adds. */
export const ARM_LENGTH_FT = 3.1;
export const DIVE_FT = 2.6;
export const BACKHAND_LOSS_FT = 0.4;
/** A pitcher who has just let the ball go is off balance: his arm is this much shorter, feet. */
export const PITCHER_LOSS_FT = 3.6;
