//! How soon somebody has to act who reports that something is not right, and what to do: published cautions chosen by
//! what was answered. Never a condition's name, never a likelihood, no reading of pictures.
//!
//! The rules are data ([`crate::catalogue::urgency`], compiled to [`Rules`]); this is what applies them, the same on the
//! phone, on the server and on the command line. [`judge`] gives the level, the rules that raised it and the advice;
//! [`next_question`] the one question to ask next. An answer that is missing or "not sure" is never taken for "no".

mod answers;
mod fact;
mod field;
mod given;
mod judge;
mod next;
mod reasons;
mod rules;
mod said;
mod walk;

pub use answers::{Answer, AnswerError, Answers, whole_minutes};
pub use fact::{Fact, Truth};
pub use field::{Field, HOURS_MOST, NOT_SURE, Scale};
pub use given::{Given, GivenFields};
pub use judge::{Verdict, judge, rinse_first};
pub use next::{Next, next_question};
pub use reasons::{reasons, unanswered};
pub use rules::{AdviceRule, Level, LevelAdvice, Question, Rule, Rules};
pub use said::{Offer, advice_key};
pub use walk::{REST, Walk, all, speaks_for_the_rest, walk};
