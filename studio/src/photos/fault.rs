//! Why a photo is not taken.

/// What is wrong with a picture, or with the moment. Each has its words below `notice.<name>`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PhotoFault {
    #[error("the file has too many bytes")]
    TooHeavy,
    #[error("the picture has too many pixels")]
    TooManyPixels,
    #[error("the file is not a JPEG, PNG or WebP picture")]
    Unreadable,
    #[error("the picture moves")]
    Moving,
    #[error("the picture is cut off or broken")]
    Incomplete,
    #[error("the picture took too long to read")]
    TooSlow,
    #[error("too many pictures are being read")]
    Busy,
}

impl PhotoFault {
    /// Its name in problem documents and in the words.
    pub fn name(self) -> &'static str {
        match self {
            PhotoFault::TooHeavy => "photo_too_heavy",
            PhotoFault::TooManyPixels => "photo_too_many_pixels",
            PhotoFault::Unreadable => "photo_unreadable",
            PhotoFault::Moving => "photo_moving",
            PhotoFault::Incomplete => "photo_incomplete",
            PhotoFault::TooSlow => "photo_too_slow",
            PhotoFault::Busy => "photo_busy",
        }
    }
}
