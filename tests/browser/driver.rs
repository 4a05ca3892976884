//! What runs beside a journey: the browser's driver, and a screen for a browser that wants one.

use crate::Outcome;
use crate::engine::{Engine, Programs};
use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// How long one may take to begin.
const PATIENCE: Duration = Duration::from_secs(20);

/// A program that ends with its value.
struct Beside(Child);

impl Beside {
    fn start(command: &mut Command) -> Outcome<Beside> {
        let name = command.get_program().to_string_lossy().into_owned();
        let child = command.stdin(Stdio::null()).stderr(Stdio::null()).spawn();
        Ok(Beside(child.map_err(|why| format!("can't start {name}: {why}"))?))
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        self.0.kill().ok();
        self.0.wait().ok();
    }
}

/// A browser's driver, on a port of its own.
pub(crate) struct Driver {
    _beside: Beside,
    pub(crate) url: String,
}

impl Driver {
    pub(crate) fn start(programs: &Programs, screen: Option<&Screen>) -> Outcome<Driver> {
        let port = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port();
        let mut command = Command::new(&programs.driver);
        command.arg(format!("--port={port}")).stdout(Stdio::null());
        if programs.engine == Engine::Firefox {
            command.arg("--websocket-port=0");
        }
        if let Some(screen) = screen {
            // Nothing is drawn by a graphics card that isn't there.
            command.env("DISPLAY", &screen.name).env("LIBGL_ALWAYS_SOFTWARE", "1");
        }
        let mut beside = Beside::start(&mut command)?;
        let from = Instant::now();
        while TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err() {
            if let Some(end) = beside.0.try_wait()? {
                return Err(format!("the driver of {} ended: {end}", programs.engine.name()).into());
            }
            if from.elapsed() > PATIENCE {
                return Err(format!("the driver of {} never began", programs.engine.name()).into());
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        Ok(Driver { _beside: beside, url: format!("http://127.0.0.1:{port}") })
    }
}

/// A screen that nobody sees, for a browser that has no way of doing without.
pub(crate) struct Screen {
    _beside: Beside,
    name: String,
}

impl Screen {
    pub(crate) fn start() -> Outcome<Screen> {
        let mut command = Command::new("Xvfb");
        command.args(["-displayfd", "1", "-screen", "0", "1400x1100x24", "-nolisten", "tcp"]);
        let mut beside = Beside::start(command.stdout(Stdio::piped()))?;
        let said = beside.0.stdout.take().ok_or("the screen has nothing to say")?;
        let mut number = String::new();
        BufReader::new(said).read_line(&mut number)?;
        match number.trim() {
            "" => Err("the screen ended before it named itself".into()),
            number => Ok(Screen { name: format!(":{number}"), _beside: beside }),
        }
    }
}
