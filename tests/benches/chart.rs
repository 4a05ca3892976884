//! How long the chart takes, and the search for more gears, beside trying everything in the same run.
#![allow(clippy::print_stdout)]

use latheside_core::exact::Ratio;
use latheside_core::gearing::more::{Group, Question, Search, Wish};
use latheside_core::gearing::{Banjo, Drawer, Mounting, Request, Tables};
use latheside_core::threads::standard;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// 24 gears as a drawer comes to be: by fives, a doubled 20, and the odd ones bought since.
const DRAWER: [u32; 24] = [
    20, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120,
    63, 127,
];

const GEARBOX: [(i64, i64); 10] =
    [(1, 1), (1, 2), (1, 4), (2, 1), (8, 9), (8, 10), (8, 11), (16, 23), (8, 12), (8, 13)];

fn leads() -> Vec<Ratio> {
    let mut leads: Vec<Ratio> = Vec::new();
    for thread in standard() {
        let lead = thread.lead().unwrap();
        let mm = lead.mm().unwrap();
        if lead.is_exact() && !leads.contains(&mm) {
            leads.push(mm);
        }
    }
    leads
}

fn main() {
    let ten: Vec<Ratio> = GEARBOX.iter().map(|&(n, d)| Ratio::of(n, d)).collect();
    let leads = leads();
    println!("{} designations, {} exact leads", standard().len(), leads.len());
    let shop = |k| Mounting::Shop { stud_clearance_teeth: k, centres_teeth: None };
    let centres = |a, b| Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: Some((a, b)) };
    let banjo = Mounting::Banjo(Banjo {
        module: Ratio::ONE,
        centres: Ratio::whole(120),
        slot: (Ratio::whole(40), Ratio::whole(90)),
        boss_radius: Ratio::whole(9),
    });
    for (screw, screw_name) in [(Ratio::whole(3), "3 mm"), (Ratio::of(127, 40), "8 tpi")] {
        for (drawer, name) in
            [(&DRAWER[..], "24"), (&DRAWER[..22], "22 no 63 127"), (&DRAWER[..8], "8")]
        {
            for pairs in [2, 3] {
                for (gearbox, gname) in [(&ten[..1], "1"), (&ten[..], "10")] {
                    for (mounting, mname) in [
                        (shop(15), "k 15"),
                        (shop(80), "k 80"),
                        (centres(120, 124), "120..124"),
                        (banjo, "banjo"),
                    ] {
                        for add in [1, 2, 3] {
                            let wishes = leads.iter().map(|lead| Wish {
                                ratios: gearbox
                                    .iter()
                                    .map(|g| lead.div(screw).unwrap().div(*g).unwrap())
                                    .collect(),
                                within: None,
                                weight: 1,
                            });
                            let q = Question {
                                groups: vec![Group {
                                    drawer: Drawer::new(drawer).unwrap(),
                                    pairs_max: pairs,
                                    mounting,
                                    wishes: wishes.collect(),
                                }],
                                sizes: (20..=127).collect(),
                                add,
                            };
                            let start = Instant::now();
                            let mut s = Search::new(&q).unwrap();
                            let mut worst = Duration::ZERO;
                            loop {
                                let t = Instant::now();
                                let p = s.step(300_000);
                                worst = worst.max(t.elapsed());
                                if p.finished() {
                                    break;
                                }
                            }
                            let f = s.found(3);
                            println!(
                                "{screw_name} {name} gears {pairs} pairs {gname} ratios {mname} add {add}: {:.1} ms, worst slice {:.1}, {} kB; {} before, +{} of {} {:?} ties {}",
                                start.elapsed().as_secs_f64() * 1e3,
                                worst.as_secs_f64() * 1e3,
                                s.bytes() / 1000,
                                f.before,
                                f.gained,
                                f.of,
                                f.best[0].gears,
                                f.ties
                            );
                        }
                    }
                }
            }
        }
    }
    let _ = black_box(Tables::new(&Drawer::new(&DRAWER).unwrap(), 3));
    let _: Option<Request<'_>> = None;
}
