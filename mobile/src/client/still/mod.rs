//! The parts of the client's page that never move. Only the server calls these, and the phone has them from the document;
//! so none of them may listen, remember, or be drawn by a component that does.

mod after;
mod cautions;
mod come_back;
mod dates;
mod emergency;
mod foot;
mod head;
mod numbers;
pub mod trouble;
mod weeks;
mod zones;

pub use after::after;
pub use cautions::cautions;
pub use dates::{Dates, Step, dates};
pub use emergency::{emergency, emergency_and_way, rinse};
pub use foot::{contact, foot};
pub use head::head;
pub use weeks::{below_figure, weeks};
pub use zones::zones;
