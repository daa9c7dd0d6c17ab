//! Where it is, as it is touched on the drawing.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{Area, UnknownTerm, terms};

terms! {
    /// Left and right are the client's own. The words are `place.<term>`.
    Place {
        RightBrow = "right_brow",
        LeftBrow = "left_brow",
        RightLid = "right_lid",
        LeftLid = "left_lid",
        RightAround = "right_around",
        LeftAround = "left_around",
        UpperLip = "upper_lip",
        Chin = "chin",
        SideOfFace = "side_of_face",
        Elsewhere = "elsewhere",
    }
}

impl Place {
    /// Whether it is offered after these areas were treated: eyes and brows and elsewhere always, the rest of the face
    /// where something was done there.
    pub fn is_offered(self, treated: &[Area]) -> bool {
        match self {
            Self::UpperLip => treated.contains(&Area::UpperLip),
            Self::Chin => treated.contains(&Area::Chin),
            Self::SideOfFace => treated.contains(&Area::SideOfFace),
            _ => true,
        }
    }

    /// The side of the drawing, seen from before: the client's right is on the left.
    pub fn is_right(self) -> bool {
        matches!(self, Self::RightBrow | Self::RightLid | Self::RightAround)
    }
}
