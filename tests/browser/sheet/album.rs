//! How a screen is taken: in which widths, on which grounds.

use crate::Outcome;
use crate::phone::Phone;
use serde_json::json;

/// What the page is looked at in: how wide, how high, and whether that is a hand-held thing.
pub(super) struct Pane {
    pub(super) name: &'static str,
    pub(super) width: u32,
    pub(super) height: u32,
    pub(super) hand: bool,
}

pub(super) const PANES: [Pane; 5] = [
    Pane { name: "390", width: 390, height: 844, hand: true },
    Pane { name: "320", width: 320, height: 640, hand: true },
    Pane { name: "820", width: 820, height: 1180, hand: true },
    Pane { name: "1280", width: 1280, height: 800, hand: false },
    Pane { name: "844-on-its-side", width: 844, height: 390, hand: true },
];

const GROUNDS: [&str; 3] = ["blue", "paper", "sun"];

/// No picture is higher, however long the sheet.
pub(super) const HIGHEST: u64 = 3600;

/// In which panes a screen is taken.
#[derive(Clone, Copy)]
pub(super) enum In {
    /// Each of them.
    All,
    /// A phone's, and one of the others in turn.
    Two,
    /// A phone's, lying too, and one of the others in turn.
    Three,
}

/// One room's pictures.
pub(super) struct Album<'a> {
    phone: &'a Phone,
    room: &'static str,
    taken: usize,
}

impl<'a> Album<'a> {
    pub(super) async fn of(phone: &'a Phone, room: &'static str) -> Outcome<Album<'a>> {
        let album = Album { phone, room, taken: room.len() };
        album.pane(&PANES[0], None).await?;
        Ok(album)
    }

    /// As wide and high as a pane, or so high that the whole sheet is in it.
    pub(super) async fn pane(&self, pane: &Pane, height: Option<u64>) -> Outcome {
        let Pane { width, hand, .. } = pane;
        let height = height.unwrap_or(u64::from(pane.height));
        let how =
            json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": hand });
        self.phone.devtools("Emulation.setDeviceMetricsOverride", how).await?;
        // Laid out, and drawn.
        self.phone
            .promised(
                "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))",
            )
            .await?;
        Ok(())
    }

    /// Takes what stands there as it is first seen.
    pub(super) async fn screen(&mut self, name: &str, within: In) -> Outcome {
        self.take(name, within, false).await
    }

    /// Takes the sheet from its head to its foot.
    pub(super) async fn sheet(&mut self, name: &str, within: In) -> Outcome {
        self.take(name, within, true).await
    }

    async fn take(&mut self, name: &str, within: In, whole: bool) -> Outcome {
        let other = 1 + self.taken % (PANES.len() - 1);
        for (at, pane) in PANES.iter().enumerate() {
            let wanted = match within {
                In::All => true,
                In::Two => at == 0 || at == other,
                In::Three => at == 0 || at == 4 || at == 1 + self.taken % 3,
            };
            if !wanted {
                continue;
            }
            let ground = GROUNDS[(self.taken + at) % GROUNDS.len()];
            self.phone.js(&format!("document.documentElement.dataset.theme = '{ground}'")).await?;
            self.pane(pane, None).await?;
            if whole && pane.width > pane.height {
                let high = self.phone.js(HIGH).await?.as_u64().unwrap_or_default();
                let lying = u64::from(pane.height);
                self.pane(pane, Some(if pane.hand { lying } else { high.clamp(lying, 2000) }))
                    .await?;
            } else if whole {
                let high = self.phone.js(HIGH).await?.as_u64().unwrap_or_default();
                self.pane(pane, Some(high.clamp(u64::from(pane.height), HIGHEST))).await?;
            }
            let name = format!("{}--{name}--{ground}--{}", self.room, pane.name);
            self.phone.shot(&name).await?;
        }
        self.taken += 1;
        self.pane(&PANES[0], None).await
    }
}

pub(super) const HIGH: &str = "return document.documentElement.scrollHeight";
