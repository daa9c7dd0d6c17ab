//! What can be asked about a reaction, and which answers there are.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{UnknownTerm, terms};

terms! {
    /// One thing that is asked, in plain signs. All may be left out; missing is not "no".
    Field {
        HoursSinceVisit = "hours_since_visit",
        /// From the visit to the first sign.
        OnsetHours = "onset_hours",
        /// From the first sign to now: derived, never given.
        HoursSinceOnset = "hours_since_onset",
        Trend = "trend",
        /// Whether anything is the matter with an eye or with sight, before each sign is asked for.
        EyeTrouble = "eye_trouble",
        ProductInEye = "product_in_eye",
        EyeRed = "eye_red",
        EyeWatering = "eye_watering",
        /// In the eye itself.
        EyePain = "eye_pain",
        EyeCannotOpen = "eye_cannot_open",
        LightHurts = "light_hurts",
        VisionChange = "vision_change",
        EyeDarkRed = "eye_dark_red",
        PupilsUnequal = "pupils_unequal",
        ObjectInEye = "object_in_eye",
        SevereHeadache = "severe_headache",
        EyeBulging = "eye_bulging",
        PainMovingEye = "pain_moving_eye",
        DoubleVision = "double_vision",
        ContactLens = "contact_lens",
        /// Hard to breathe, noisy breath, tight throat, hard to swallow.
        Airway = "airway",
        LipMouthSwelling = "lip_mouth_swelling",
        /// Faint, confused, drowsy, blue or grey.
        Collapse = "collapse",
        /// Vomiting, stomach pain, racing heart, dizziness, dread.
        Systemic = "systemic",
        Swelling = "swelling",
        Hives = "hives",
        Rash = "rash",
        Blisters = "blisters",
        BlistersNearEye = "blisters_near_eye",
        Burn = "burn",
        HotTenderSpreading = "hot_tender_spreading",
        Fever = "fever",
        Unwell = "unwell",
        Pus = "pus",
        RawSkin = "raw_skin",
        Redness = "redness",
        Itch = "itch",
        Pain = "pain",
        /// Weak immune system, diabetes, under 16, pregnant, retinoid tablets or a recent retinoid, eye surgery.
        HigherRisk = "higher_risk",
        /// The person is unsure about the whole.
        Unsure = "unsure",
    }
}

/// The word for an answer that somebody does not know.
pub const NOT_SURE: &str = "not_sure";

/// The longest time that is taken, in hours: ten years. Only to keep typing errors out.
pub const HOURS_MOST: u32 = 87_600;

/// The answers that a field takes, besides [`NOT_SURE`]. In each the first (or 0) is the absence of the sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    OneOf(&'static [&'static str]),
    /// Whole numbers from 0 to this, both included.
    UpTo(u32),
    /// Hours; kept as whole minutes.
    Hours,
}

impl Field {
    pub const fn scale(self) -> Scale {
        match self {
            Self::HoursSinceVisit | Self::OnsetHours | Self::HoursSinceOnset => Scale::Hours,
            Self::Trend => Scale::OneOf(&["better", "same", "worse"]),
            Self::EyePain | Self::Itch | Self::Pain => Scale::UpTo(10),
            Self::Redness => Scale::UpTo(4),
            Self::Swelling => Scale::OneOf(&["none", "local", "lids", "face", "shut"]),
            Self::Hives => Scale::OneOf(&["none", "local", "widespread"]),
            Self::Blisters => Scale::OneOf(&["none", "few", "many", "weeping"]),
            Self::Burn => Scale::OneOf(&[
                "none",
                "minor",
                "chemical",
                "white_or_charred",
                "bigger_than_hand",
                "face_blister",
            ]),
            Self::RawSkin => Scale::OneOf(&["none", "small", "large", "eyelid"]),
            _ => Scale::OneOf(&["no", "yes"]),
        }
    }

    /// Computed from others, so that nobody can give it.
    pub const fn is_derived(self) -> bool {
        matches!(self, Self::HoursSinceOnset)
    }

    /// Whether it is about how somebody is; the others are asked on the way to that: when, how it goes, whether it is
    /// the eye at all.
    pub const fn is_sign(self) -> bool {
        !matches!(
            self,
            Self::HoursSinceVisit
                | Self::OnsetHours
                | Self::HoursSinceOnset
                | Self::Trend
                | Self::EyeTrouble
        )
    }

    /// The answers that are allowed, for a sentence.
    pub fn allowed(self) -> String {
        match self.scale() {
            Scale::OneOf(terms) => format!("one of {}, {NOT_SURE}", terms.join(", ")),
            Scale::UpTo(most) => format!("a whole number from 0 to {most}, or {NOT_SURE}"),
            Scale::Hours if matches!(self, Self::OnsetHours) => {
                format!("hours from 0 to {HOURS_MOST}, two of them as 6-12, or {NOT_SURE}")
            }
            Scale::Hours => format!("hours from 0 to {HOURS_MOST}, or {NOT_SURE}"),
        }
    }
}
