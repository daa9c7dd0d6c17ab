//! How soon to act: stories made from published cases and from what health services say, against the level that those ask
//! for. What a story does not mention was answered with "no".

#![cfg(test)]

use std::sync::LazyLock;

use content::Content;
use shared_types::{
    urgency::{Answer, Answers, Field, Scale, judge, rinse_first},
    visit::Treatment,
};

use Treatment::{BrowTint, BrowTweeze, BrowWax, LashExtensions, LashLift, LashTint};

static CONTENT: LazyLock<Content> = LazyLock::new(|| Content::built_in().unwrap());

/// Everything "no", then what the story says.
fn story(treatment: Treatment, hours: &str, said: &[(&str, &str)]) -> Answers {
    let mut answers = Answers::default();
    for field in Field::ALL {
        if field.scale() != Scale::Hours {
            answers.set(*field, Answer::At(0));
        }
    }
    answers.put(Field::HoursSinceVisit, hours).unwrap();
    for (field, answer) in said {
        answers.put(field.parse().unwrap(), answer).unwrap();
    }
    answers.treatments = vec![treatment];
    answers
}

/// Level, rules, and whether each piece of advice named is told.
fn told(answers: &Answers, level: &str, rules: &[&str], advice: &[&str]) {
    let compiled = CONTENT.catalogue.urgency.compiled();
    let verdict = judge(&compiled, answers);
    assert_eq!(
        (verdict.level.term(), verdict.rules.as_slice()),
        (level, rules)
    );
    for one in advice {
        assert!(verdict.advice.contains(one), "{one}: {:?}", verdict.advice);
    }
    // The command line says the same.
    let asked = serde_json::to_string(answers).unwrap();
    let said = studio::cli::urgency::urgency(&asked, &CONTENT).unwrap();
    let said: serde_json::Value = serde_json::from_str(&said).unwrap();
    assert_eq!(said["urgency"], level);
    assert_eq!(said["rules"], serde_json::json!(rules));
    assert_eq!(said["advice"], serde_json::json!(verdict.advice));
}

/// NHS, contact dermatitis: irritation shows at once or within 48 hours. That it is ordinary for so long is our own choice.
#[test]
fn pink_skin_after_wax_and_tweezers() {
    let wax = [
        ("redness", "1"),
        ("itch", "1"),
        ("pain", "2"),
        ("trend", "better"),
    ];
    told(&story(BrowWax, "3", &wax), "expected", &[], &["ordinary"]);
    let tweezers = [("redness", "1"), ("trend", "same")];
    told(
        &story(BrowTweeze, "20", &tweezers),
        "expected",
        &[],
        &["ordinary"],
    );
    told(&story(BrowTweeze, "48", &tweezers), "expected", &[], &[]);
    told(
        &story(BrowTweeze, "48:01", &tweezers),
        "studio",
        &["T9"],
        &["tell_studio"],
    );
}

/// Medscape quiz (W. James): after 24 to 72 h in those who react already; Reich 2012: itch from 4 of 10 is moderate.
#[test]
fn a_rash_the_day_after_a_tint() {
    let said = [
        ("rash", "yes"),
        ("redness", "2"),
        ("itch", "6"),
        ("trend", "same"),
    ];
    told(
        &story(BrowTint, "30", &said),
        "studio",
        &["T4", "T8"],
        &["pharmacist", "not_again"],
    );
}

/// Eye (London) 2009, nature.com/articles/eye200950: 24 h after a lash tint lids swollen, eyes red, sight 6/6. NHS, hives:
/// swelling under the skin needs help on the same day.
#[test]
fn puffy_lids_after_a_lash_tint() {
    let said = [
        ("swelling", "lids"),
        ("eye_red", "yes"),
        ("itch", "7"),
        ("trend", "worse"),
    ];
    told(
        &story(LashTint, "24", &said),
        "same_day",
        &["S2", "T7", "T8", "T9"],
        &["today"],
    );
}

/// Medicine Today 2005: face swollen 6 h after hair colour, breathing free. Aktuelle Dermatologie 10.1055/a-1160-9478: not
/// treating such a face as an emergency was held an error. Ministry of Health Singapore: emergency department.
#[test]
fn a_swollen_face_six_hours_after_a_tint() {
    let said = [("swelling", "face"), ("trend", "worse")];
    told(
        &story(BrowTint, "6", &said),
        "emergency",
        &["E9", "S2"],
        &["go_now"],
    );
}

/// Int J Occup Med Environ Health 2012;25:196: a day after a tint the lids swollen until they nearly close.
#[test]
fn an_eye_swollen_shut() {
    told(
        &story(LashTint, "26", &[("swelling", "shut")]),
        "emergency",
        &["E9", "S2"],
        &["go_now"],
    );
}

/// HSE Ireland: noisy or hard breathing: call 999 or 112.
#[test]
fn bumps_all_over_and_wheezing() {
    let said = [("hives", "widespread"), ("airway", "yes")];
    told(
        &story(BrowTint, "0:40", &said),
        "emergency",
        &["E1", "S7"],
        &["call_now"],
    );
}

/// NHS, hives: lips, mouth, throat or tongue that swell suddenly: call.
#[test]
fn a_swollen_tongue_and_nothing_else() {
    told(
        &story(BrowTint, "1", &[("lip_mouth_swelling", "yes")]),
        "emergency",
        &["E1"],
        &["call_now"],
    );
}

/// NHS-commissioned page on eye injuries: rinse at least 20 minutes. HealthInfo Canterbury: with burning or stinging, call.
#[test]
fn lotion_in_the_eye() {
    let said = [
        ("product_in_eye", "yes"),
        ("eye_watering", "yes"),
        ("eye_pain", "4"),
    ];
    let answers = story(LashLift, "0:10", &said);
    told(
        &answers,
        "emergency",
        &["E4", "S3", "T7"],
        &["rinse", "then_call"],
    );
    assert!(rinse_first(&answers));
    assert!(CONTENT.catalogue.urgency.whole("rinse_minutes") >= Some(20));
    let calm = story(LashLift, "0:10", &[("product_in_eye", "yes")]);
    told(&calm, "studio", &["T1"], &["rinse"]);
}

/// NHS, red eye: painful: help on the same day; light hurts or sight has changed: now. Amano, Cornea 2012;31(2): eyes after
/// lash adhesives.
#[test]
fn red_eyes_after_adhesive() {
    let sore = [("eye_red", "yes"), ("eye_pain", "3")];
    told(
        &story(LashExtensions, "8", &sore),
        "same_day",
        &["S3", "T7"],
        &["today"],
    );
    let blurred = [
        ("vision_change", "yes"),
        ("light_hurts", "yes"),
        ("eye_red", "yes"),
        ("eye_pain", "3"),
    ];
    told(
        &story(LashExtensions, "20", &blurred),
        "emergency",
        &["E5", "S3", "T7"],
        &["go_now"],
    );
    let red = [("eye_red", "yes")];
    told(
        &story(LashExtensions, "8", &red),
        "studio",
        &["T7"],
        &["pharmacist"],
    );
    let lenses = [("eye_red", "yes"), ("contact_lens", "yes")];
    told(
        &story(LashExtensions, "8", &lenses),
        "same_day",
        &["S3", "T7"],
        &["today"],
    );
}

/// NHS, skin that is painful, hot and swollen: the same day; older text: spreading with fever of 38 °C or more: now.
#[test]
fn hot_spreading_skin_with_and_without_fever() {
    let hot = [
        ("hot_tender_spreading", "yes"),
        ("pain", "5"),
        ("trend", "worse"),
    ];
    told(
        &story(BrowWax, "72", &hot),
        "same_day",
        &["S1", "T8", "T9"],
        &["today"],
    );
    let fever = [hot.as_slice(), &[("fever", "yes")]].concat();
    told(
        &story(BrowWax, "72", &fever),
        "emergency",
        &["E8", "S1", "S6", "T8", "T9"],
        &["go_now"],
    );
}

/// NHS Greater Glasgow and Clyde: blistering burns on the face, emergency department; cool 20 minutes first.
#[test]
fn a_burn_from_hot_wax() {
    let said = [("burn", "face_blister"), ("pain", "5")];
    told(
        &story(BrowWax, "1", &said),
        "emergency",
        &["E7", "T8"],
        &["cool", "go_now", "no_bursting"],
    );
    assert!(CONTENT.catalogue.urgency.whole("cool_minutes") >= Some(20));
    told(
        &story(BrowWax, "1", &[("burn", "minor")]),
        "studio",
        &["T11"],
        &["cool"],
    );
}

/// Ocul Immunol Inflamm 2003;11:149: a day after a lash tint itch, tears, sight 20/40 in both eyes.
#[test]
fn worse_sight_a_day_after_a_lash_tint() {
    let said = [
        ("itch", "5"),
        ("eye_watering", "yes"),
        ("vision_change", "yes"),
    ];
    told(
        &story(LashTint, "24", &said),
        "emergency",
        &["E5", "T7", "T8"],
        &["go_now"],
    );
}

/// JAMA 1934;103:180: within hours lids red and swollen, next day blisters, and light hurt.
#[test]
fn blisters_and_light_that_hurts_the_day_after() {
    let lids = [("swelling", "lids"), ("redness", "3"), ("trend", "worse")];
    told(
        &story(LashTint, "4", &lids),
        "same_day",
        &["S2", "T8", "T9"],
        &["today"],
    );
    let next_day = [
        lids.as_slice(),
        &[("blisters", "many"), ("light_hurts", "yes")],
    ]
    .concat();
    told(
        &story(LashTint, "24", &next_day),
        "emergency",
        &["E5", "S2", "S5", "T8", "T9"],
        &["go_now"],
    );
}

/// NHS, hives: plain ones, a pharmacist; no better after 2 days, the same day. HSE Ireland: with vomiting, call.
#[test]
fn raised_itchy_bumps() {
    let bumps = |hours, more: &[(&str, &str)]| {
        story(BrowWax, hours, &[&[("hives", "local")], more].concat())
    };
    told(&bumps("1", &[]), "studio", &["T2"], &["pharmacist"]);
    told(
        &bumps("50", &[("onset_hours", "1")]),
        "same_day",
        &["S7", "T2"],
        &["today"],
    );
    told(
        &bumps("50", &[("onset_hours", "2")]),
        "studio",
        &["T2"],
        &[],
    );
    told(
        &bumps("1", &[("systemic", "yes")]),
        "emergency",
        &["E3", "S9", "T2"],
        &["call_now"],
    );
    told(
        &bumps("1", &[("trend", "worse")]),
        "same_day",
        &["T2", "M2"],
        &["today"],
    );
}

/// Mimouni-Bloch 1997, Cutis 59:41: pus after wax that went on to scar: it must not stay with the studio when it gets worse,
/// nor with somebody whose defence is weak (NHS, skin that is hot and swollen).
#[test]
fn pus_after_wax() {
    told(
        &story(BrowWax, "40", &[("pus", "yes"), ("trend", "same")]),
        "studio",
        &["T5"],
        &["pharmacist"],
    );
    told(
        &story(BrowWax, "40", &[("pus", "yes"), ("trend", "worse")]),
        "same_day",
        &["S6"],
        &["today"],
    );
    let risk = [("pus", "yes"), ("trend", "same"), ("higher_risk", "yes")];
    told(
        &story(BrowWax, "40", &risk),
        "same_day",
        &["T5", "M1"],
        &["today"],
    );
}

/// Ophthalmic references (MSD Manual: bulging; the rest from memory): a medical emergency.
#[test]
fn an_eye_that_bulges_or_hurts_to_move() {
    for sign in ["eye_bulging", "pain_moving_eye", "double_vision"] {
        told(
            &story(BrowWax, "60", &[(sign, "yes")]),
            "emergency",
            &["E6"],
            &["go_now"],
        );
    }
}

/// HSE Ireland: vomiting and stomach pain belong to the signs that need an ambulance; Brown's second grade: with signs of the
/// skin. Told by somebody whose skin itches in bumps.
#[test]
fn bumps_and_a_stomach_that_hurts() {
    let said = [("hives", "local"), ("systemic", "yes")];
    told(
        &story(BrowTint, "1", &said),
        "emergency",
        &["E3", "S9", "T2"],
        &["call_now", "while_you_wait", "stop_product"],
    );
}

/// Reference, section 2 (health services disagree): a face that swells fast is an emergency, also twelve days after the visit.
/// What is offered is a time between two others; the more urgent end counts.
#[test]
fn when_it_began_as_it_is_offered() {
    let face = |time| {
        [
            ("swelling", "face"),
            ("onset_hours", time),
            ("trend", "same"),
        ]
    };
    told(
        &story(BrowTint, "285", &face("72-")),
        "emergency",
        &["E9", "S2"],
        &["go_now"],
    );
    told(
        &story(BrowTint, "285", &face("48-72")),
        "same_day",
        &["S2"],
        &["today"],
    );
    let bumps = |time| [("hives", "local"), ("onset_hours", time)];
    told(
        &story(BrowWax, "71", &bumps("13")),
        "same_day",
        &["S7", "T2"],
        &["today"],
    );
    told(
        &story(BrowWax, "71", &bumps("12-24")),
        "same_day",
        &["S7", "T2"],
        &["today"],
    );
    // Half a day or more after colour: never ordinary (reference, section 1.3).
    let itch = |time| [("itch", "1"), ("onset_hours", time)];
    told(
        &story(BrowTint, "30", &itch("24-48")),
        "studio",
        &["T12"],
        &["not_again"],
    );
    told(
        &story(BrowTint, "30", &itch("0-6")),
        "expected",
        &[],
        &["ordinary"],
    );
}

/// Our own choice, next to NHS, contact dermatitis (a rash that gets worse): what gets worse is not called ordinary.
#[test]
fn nothing_but_that_it_gets_worse() {
    told(
        &story(BrowWax, "5", &[("trend", "worse")]),
        "studio",
        &["T16"],
        &["tell_studio"],
    );
}

/// Section 9's T10: beside a milder sign too.
#[test]
fn itching_and_not_sure_about_breathing() {
    let said = [("itch", "5"), ("airway", "not_sure")];
    told(
        &story(BrowTint, "5", &said),
        "studio",
        &["T8", "T10"],
        &["not_sure"],
    );
}
