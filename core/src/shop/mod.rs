//! What is owned: the machine and the kit.

mod contradictions;
mod dial;
mod entry;
mod reading;
mod sections;
mod spec;
mod typed;

pub use contradictions::contradictions;
pub use dial::Dial;
pub use entry::entry_words;
pub use reading::Reading;
pub use sections::{SECTIONS, Section};
pub(crate) use spec::CUTTER_MATERIALS;
pub use spec::{
    BANJO, CHASING_DIAL, CUTTER, DIAL, DIALS, DIVIDING, HEAD, HOLDING, INDICATOR, LATHE, SHOP,
};
pub(crate) use typed::teeth;
pub use typed::{ChasingDial, Shop, Speed};
