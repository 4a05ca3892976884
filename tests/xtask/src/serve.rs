//! The page on this machine, or for a phone in the same house.

use crate::command::Outcome;
use crate::dev::Dev;
use crate::page;
use std::net::{IpAddr, Ipv4Addr, UdpSocket};
use xtask::site::Site;

/// Builds the page, prints its address and serves it until it is stopped; `--dev` builds it quickly, and
/// again whenever something is saved.
pub(crate) fn serve(options: &[&str]) -> Outcome {
    let (mut port, mut lan, mut dev) = (8080, false, false);
    let mut options = options.iter();
    while let Some(option) = options.next() {
        match *option {
            "--lan" => lan = true,
            "--dev" => dev = true,
            "--port" => {
                let given = options.next().copied().unwrap_or("");
                port =
                    given.parse().map_err(|_| format!("`{given}` is no port: try --port 8080"))?;
            }
            other => {
                return Err(format!("serve knows --dev, --lan and --port N, and no `{other}`"));
            }
        }
    }
    let dev = dev.then(Dev::begin).transpose()?;
    let folder = match &dev {
        Some(dev) => dev.folder().to_owned(),
        None => page::build()?,
    };
    let address = if lan { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
    let site = Site::start(&folder, "/", (address, port).into()).map_err(|why| {
        format!("port {port} can't be had ({why}): try another with --port, or 0 for a free one")
    })?;
    let port = site.address().port();
    println!("http://127.0.0.1:{port}/");
    if lan {
        match ours() {
            Some(ours) => println!(
                "http://{ours}:{port}/   for a phone; without https it keeps nothing offline and \
                 may let the screen sleep"
            ),
            None => println!("this machine is on no network that a phone could reach it by"),
        }
    }
    println!("stop with Ctrl-C");
    match dev {
        Some(dev) => dev.go_on(),
        None => {
            site.wait();
            Ok(())
        }
    }
}

/// This machine's own address towards others. Nothing is sent: naming a
/// destination is enough for the system to choose (TEST-NET-1, RFC 5737).
fn ours() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let ours = socket.local_addr().ok()?.ip();
    (!ours.is_unspecified()).then_some(ours)
}
