/** Starts the page. */
import './style/fonts.css';
import './style/tokens.css';
import './style/base.css';
import './style/controls.css';
import './style/frame.css';
import './style/questions.css';
import './style/rows.css';
import './style/check.css';
import './style/drawing.css';
import './style/forms.css';
import './style/plan.css';
import './style/report.css';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';

const page = document.getElementById('page');
if (page) createRoot(page).render(<App />);
