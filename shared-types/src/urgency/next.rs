//! The one question to ask next.

use super::{
    answers::{Answer, AnswerError, Answers},
    fact::Truth,
    field::{Field, NOT_SURE, Scale},
    judge::judge,
    rules::{Level, Question, Rules},
};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Next<'a> {
    pub question: &'a Question,
    /// Those of its fields that can still change the advice, in its order: the signs to offer.
    pub fields: Vec<Field>,
    /// Questions that have an answer.
    pub answered: usize,
    /// Questions that may still come, this one included; each answer may bring the number down.
    pub left: usize,
}

/// The question that may raise the level furthest; among equals one about an eye, then the order of the rules. `None` when
/// no answer can change the advice any more, and as soon as it is an emergency: then nobody is kept with questions.
pub fn next_question<'a>(rules: &'a Rules, answers: &Answers) -> Option<Next<'a>> {
    if judge(rules, answers).level == Level::Emergency {
        return None;
    }
    let mut best: Option<((Level, bool), Next<'a>)> = None;
    let (mut answered, mut left) = (0, 0);
    for question in &rules.questions {
        let mut reach = None;
        let mut fields = Vec::new();
        for field in &question.fields {
            let own = reaches(rules, answers, *field);
            let brings = if own.is_some() || answers.get(*field) == Answer::Open {
                let brought = question.none_means.iter();
                brought.filter_map(|of| reaches(rules, answers, *of)).max()
            } else {
                None
            };
            let most = own.max(brings);
            if most.is_some() {
                fields.push(*field);
                reach = reach.max(most);
            }
        }
        let open = |field: &Field| answers.get(*field) == Answer::Open;
        if !question.fields.iter().all(open) {
            answered += 1;
        }
        let Some(reach) = reach else { continue };
        left += 1;
        let rank = (reach, question.eye);
        if best.as_ref().is_none_or(|(so_far, _)| rank > *so_far) {
            let next = Next {
                question,
                fields,
                answered: 0,
                left: 0,
            };
            best = Some((rank, next));
        }
    }
    best.map(|(_, next)| Next {
        answered,
        left,
        ..next
    })
}

/// The highest level at which an answer to this open field can change level or advice. Each row of a rule that is not
/// decided yet is tried: its open facts made true, everything else that is open left absent, with this field and without.
fn reaches(rules: &Rules, answers: &Answers, field: Field) -> Option<Level> {
    if answers.get(field) != Answer::Open {
        return None;
    }
    let mut highest = begun_lately(rules, answers, field);
    // A rule for which "not asked" is "no" is no reason to ask.
    for rule in rules.rules.iter().filter(|rule| !rule.unasked_is_no) {
        for row in &rule.when {
            let can = row.iter().all(|fact| {
                let truth = fact.truth(answers);
                truth == Truth::Yes || truth == Truth::Open
            });
            let open = row.iter().any(|fact| fact.truth(answers) == Truth::Open);
            if !can || !open || !row.iter().any(|fact| fact.asks() == field) {
                continue;
            }
            let mut with = answers.clone();
            for fact in row.iter().filter(|fact| fact.truth(answers) == Truth::Open) {
                fact.made_true(&mut with);
            }
            let mut without = with.clone();
            without.set(field, Answer::Open);
            with.leave_absent();
            without.leave_absent();
            let (with, without) = (judge(rules, &with), judge(rules, &without));
            if (with.level, &with.advice) != (without.level, &without.advice) {
                highest = highest.max(Some(with.level));
            }
        }
    }
    highest
}

/// As long as nobody has said when it began, a sign counts from the visit. That it began only now may make it milder: the
/// level that would then be left is worth a question.
fn begun_lately(rules: &Rules, answers: &Answers, field: Field) -> Option<Level> {
    let (Field::OnsetHours, Answer::At(visit)) = (field, answers.get(Field::HoursSinceVisit))
    else {
        return None;
    };
    let mut unsaid = answers.clone();
    unsaid.leave_absent();
    let lately = unsaid.clone().with(field, Answer::At(visit));
    let (unsaid, lately) = (judge(rules, &unsaid), judge(rules, &lately));
    let differs = (unsaid.level, &unsaid.advice) != (lately.level, &lately.advice);
    differs.then_some(unsaid.level.max(lately.level))
}

impl Answers {
    /// Everything open as if it had been answered "no"; times are left.
    fn leave_absent(&mut self) {
        for field in Field::ALL.iter().copied() {
            if self.get(field) == Answer::Open && field.scale() != Scale::Hours {
                self.set(field, Answer::At(0));
            }
        }
    }

    /// Takes the answer to a question: a term or number of its one field; the name of one of several signs; `none`; or
    /// `not_sure`. Signs answered before stay as they are.
    ///
    /// # Errors
    /// An answer that the question does not offer.
    pub fn answer(&mut self, question: &Question, given: &str) -> Result<(), AnswerError> {
        match question.fields.as_slice() {
            [field] => {
                self.put(*field, given)?;
                if self.get(*field) == Answer::At(0) {
                    self.answer_open(&question.none_means, Answer::At(0));
                }
            }
            several => {
                let sign = several.iter().find(|field| field.term() == given);
                match (given, sign) {
                    (_, Some(sign)) => self.put(*sign, "yes")?,
                    ("none", None) => self.answer_open(several, Answer::At(0)),
                    (NOT_SURE, None) => self.answer_open(several, Answer::NotSure),
                    _ => {
                        let mut allowed: Vec<_> =
                            several.iter().map(|field| field.term()).collect();
                        allowed.extend(["none", NOT_SURE]);
                        return Err(AnswerError::NotAllowed {
                            field: question.id.clone(),
                            given: given.to_owned(),
                            allowed: format!("one of {}", allowed.join(", ")),
                        });
                    }
                }
            }
        }
        Ok(())
    }

    fn answer_open(&mut self, fields: &[Field], answer: Answer) {
        for field in fields {
            if self.get(*field) == Answer::Open {
                self.set(*field, answer);
            }
        }
    }
}
