//! One thing that a rule asks for, and whether it holds.

use serde::{Deserialize, Serialize};

use super::{
    answers::{Answer, Answers},
    field::Field,
};

/// An answer between two places of its field's scale, both included (for times: minutes).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fact {
    pub field: Field,
    pub least: u32,
    pub most: u32,
    /// "Not sure" is enough.
    #[serde(default)]
    pub or_not_sure: bool,
}

/// Whether something holds, by what was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Truth {
    No,
    /// Somebody answered "not sure".
    NotSure,
    /// Nobody has answered.
    Open,
    Yes,
}

impl Fact {
    pub fn truth(&self, answers: &Answers) -> Truth {
        let Self { least, most, .. } = *self;
        let within = |place: u32| {
            if (least..=most).contains(&place) {
                Truth::Yes
            } else {
                Truth::No
            }
        };
        let visit = answers.get(Field::HoursSinceVisit);
        match (self.field, answers.get(self.field), visit) {
            (Field::HoursSinceOnset, _, Answer::At(visit)) => {
                match answers.get(Field::OnsetHours) {
                    // Between two times it counts by whichever of them makes it hold.
                    Answer::At(latest) => {
                        let from = answers.begun_from().unwrap_or(latest);
                        let longest = visit.saturating_sub(from);
                        if visit.saturating_sub(latest) <= most && longest >= least {
                            Truth::Yes
                        } else {
                            Truth::No
                        }
                    }
                    // It began at some time since the visit: taken at the worse.
                    Answer::NotSure if least <= visit => Truth::Yes,
                    // Nobody said when: a long time counts from the visit, a short one is still to be asked for.
                    Answer::Open if (least..=most).contains(&visit) => Truth::Yes,
                    Answer::Open if least <= visit => Truth::Open,
                    _ => Truth::No,
                }
            }
            (Field::HoursSinceOnset, _, Answer::NotSure) => Truth::NotSure,
            (Field::HoursSinceOnset, _, Answer::Open) => Truth::Open,
            // It began before now.
            (Field::OnsetHours, Answer::Open | Answer::NotSure, Answer::At(visit))
                if least > visit =>
            {
                Truth::No
            }
            (Field::OnsetHours, Answer::At(latest), Answer::At(visit)) => within(latest.min(visit)),
            (_, Answer::At(place), _) => within(place),
            (_, Answer::NotSure, _) if self.or_not_sure => Truth::Yes,
            (_, Answer::NotSure, _) => Truth::NotSure,
            (_, Answer::Open, _) => Truth::Open,
        }
    }

    /// The field whose answer decides.
    pub(super) fn asks(&self) -> Field {
        match self.field {
            Field::HoursSinceOnset => Field::OnsetHours,
            field => field,
        }
    }

    /// Answers under which it holds, with nothing else changed.
    pub(super) fn made_true(&self, answers: &mut Answers) {
        let place = match (self.field, answers.get(Field::HoursSinceVisit)) {
            (Field::HoursSinceOnset, Answer::At(visit)) => visit.saturating_sub(self.least),
            _ => self.least,
        };
        answers.set(self.asks(), Answer::At(place));
    }
}
